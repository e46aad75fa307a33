import './theme/mantine-styles.ts';
import '@fontsource/source-sans-3/latin-400.css';
import '@fontsource/source-sans-3/latin-600.css';
import '@fontsource/source-sans-3/latin-700.css';
import '@fontsource/source-sans-3/latin-ext-400.css';
import '@fontsource/source-sans-3/latin-ext-600.css';
import './theme/tokens.css';
import './theme/base.css';
import { registerSW } from 'virtual:pwa-register';
import { createRoot } from 'react-dom/client';
import { App } from './shell/app.tsx';

createRoot(document.getElementById('page')!).render(<App />);
// Only https and localhost allow it; elsewhere the page works as long as the network does.
if ('serviceWorker' in navigator) registerSW({ immediate: true });
