import { MantineProvider } from '@mantine/core';
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { OutboxProvider } from '../draft/outbox-provider.tsx';
import { Refusal } from '../service/request.ts';
import { surfaces, theme } from '../theme/theme.ts';
import { Frame } from './frame.tsx';
import { Pages } from './pages.tsx';
import { WayProvider } from './steps.tsx';
import { Trouble } from './trouble.tsx';

/** A refusal will be refused again; silence may end. The network is asked even when the browser believes there is none. */
const client = new QueryClient({
  defaultOptions: {
    queries: {
      networkMode: 'always',
      retry: (count, error) => !(error instanceof Refusal) && count < 2,
      staleTime: 10_000,
      refetchOnWindowFocus: true,
    },
    mutations: { networkMode: 'always' },
  },
});

/** The whole page. */
export const App = () => (
  <MantineProvider theme={theme} cssVariablesResolver={surfaces} defaultColorScheme="auto">
    <QueryClientProvider client={client}>
      <Trouble>
        <OutboxProvider>
          <WayProvider>
            <Frame>
              <Pages />
            </Frame>
          </WayProvider>
        </OutboxProvider>
      </Trouble>
    </QueryClientProvider>
  </MantineProvider>
);
