declare module '*.module.css' {
  const names: Readonly<Record<string, string>>;
  export default names;
}
declare module '*.css';
declare module 'virtual:pwa-register' {
  export const registerSW: (options?: { immediate?: boolean }) => (reload?: boolean) => Promise<void>;
}
