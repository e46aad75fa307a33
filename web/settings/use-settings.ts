import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { defaultSettings, type Settings } from '../../server/contract/settings.ts';
import { getSettings, putSettings } from '../service/club.ts';

/** The last settings seen, for the time without network. */
const KEPT = 'sward-settings';

const kept = (): Settings => {
  try {
    const text = localStorage.getItem(KEPT);
    return text ? { ...defaultSettings(), ...(JSON.parse(text) as Settings) } : defaultSettings();
  } catch {
    return defaultSettings();
  }
};

const keep = (settings: Settings): Settings => {
  try {
    localStorage.setItem(KEPT, JSON.stringify(settings));
  } catch {
    // A full or forbidden storage only means the next start without network knows the defaults.
  }
  return settings;
};

let latest: Settings | null = null;

/** The settings as last seen, also without network. */
export const currentSettings = (): Settings => {
  latest ??= kept();
  return latest;
};

const fetchSettings = async (): Promise<Settings> => {
  latest = keep(await getSettings());
  return latest;
};

/** The club's settings, the last ones seen until the server answers. */
export const useSettings = (): Settings => {
  const { data } = useQuery({ queryKey: ['settings'], queryFn: fetchSettings, staleTime: 60_000 });
  return data ?? currentSettings();
};

/** Changes the settings on the server and here. */
export const useChangeSettings = () => {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (change: Partial<Settings>) => putSettings({ ...currentSettings(), ...change }),
    onSuccess: (settings) => {
      latest = keep(settings);
      client.setQueryData(['settings'], settings);
    },
  });
};
