import { type CSSVariablesResolver, createTheme, type MantineColorsTuple } from '@mantine/core';

/** The one warm accent, from a wash to its darkest; 7 serves on paper, 4 at dusk. */
const act: MantineColorsTuple = [
  '#fdf3ec',
  '#f7e6d9',
  '#f3c2a5',
  '#eeae84',
  '#ea9a62',
  '#d97a3c',
  '#c56426',
  '#b4541a',
  '#8f4113',
  '#6d310d',
];

/** Mantine's settings: type, targets of at least 44 px, the accent. Colours by role live in tokens.css. */
export const theme = createTheme({
  fontFamily: "'Source Sans 3', 'Segoe UI', system-ui, sans-serif",
  headings: { fontFamily: "'Source Sans 3', 'Segoe UI', system-ui, sans-serif", fontWeight: '700' },
  colors: { act },
  primaryColor: 'act',
  primaryShade: { light: 7, dark: 4 },
  autoContrast: true,
  luminanceThreshold: 0.35,
  defaultRadius: 6,
  fontSizes: { xs: '0.875rem', sm: '1rem', md: '1.0625rem', lg: '1.1875rem', xl: '1.375rem' },
  respectReducedMotion: true,
  components: {
    Button: {
      defaultProps: { size: 'md' },
      styles: { root: { minHeight: 48 } },
      // On the accent stands the ink that reads on it, which differs by day and dusk.
      vars: (_theme: unknown, { variant = 'filled' }: { variant?: string }) => ({
        root: variant === 'filled' ? { '--button-color': 'var(--on-act)' } : {},
      }),
    },
    ActionIcon: { defaultProps: { size: 44, variant: 'subtle' } },
    Modal: { defaultProps: { centered: true, closeButtonProps: { 'aria-label': 'Close', size: 44 } } },
    Drawer: { defaultProps: { closeButtonProps: { 'aria-label': 'Close', size: 44 } } },
    TextInput: { defaultProps: { size: 'md' } },
    NumberInput: { defaultProps: { size: 'md' } },
    NativeSelect: { defaultProps: { size: 'md' } },
    Textarea: { defaultProps: { size: 'md' } },
    Switch: { defaultProps: { size: 'md' } },
    SegmentedControl: { defaultProps: { size: 'md' } },
  },
});

const SURFACES = {
  '--mantine-color-body': 'var(--paper)',
  '--mantine-color-text': 'var(--ink)',
  '--mantine-color-dimmed': 'var(--ink-soft)',
  '--mantine-color-default': 'var(--sheet)',
  '--mantine-color-default-border': 'var(--edge)',
  '--mantine-color-default-color': 'var(--ink)',
  '--mantine-color-default-hover': 'var(--act-wash)',
  '--mantine-color-placeholder': 'var(--ink-soft)',
  '--mantine-color-anchor': 'var(--act-text)',
};

/** Points Mantine's surface colours to the roles in tokens.css, so one place holds them for both schemes. */
export const surfaces: CSSVariablesResolver = () => ({ variables: {}, light: SURFACES, dark: SURFACES });
