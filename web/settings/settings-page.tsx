import { useMantineColorScheme } from '@mantine/core';
import { ChoiceTiles } from '../parts/choice-tiles.tsx';
import parts from '../parts/parts.module.css';
import { sentenceOf } from '../service/request.ts';
import { LawnSettings } from './lawn-settings.tsx';
import { LetterSettings } from './letter-settings.tsx';
import { RuleSettings } from './rule-settings.tsx';
import style from './settings.module.css';
import { SpotSettings } from './spot-settings.tsx';
import { useChangeSettings, useSettings } from './use-settings.ts';

const Looks = () => {
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  return (
    <ChoiceTiles
      label="Light or dark"
      across={3}
      value={colorScheme}
      onChoose={setColorScheme}
      options={[
        { value: 'auto', face: 'As the device' },
        { value: 'light', face: 'Paper' },
        { value: 'dark', face: 'Dusk' },
      ]}
    />
  );
};

/** What the club chose. Each choice is kept as it is made. */
export const SettingsPage = () => {
  const settings = useSettings();
  const change = useChangeSettings();
  return (
    <div className={`${parts.page} ${style.settings}`}>
      <h1>Settings</h1>
      <p className="soft">
        They hold for everyone who uses this club's machine; light or dark for this device only.
      </p>
      {change.error && (
        <p role="alert" className={parts.notice}>
          {sentenceOf(change.error)}
        </p>
      )}
      <section>
        <h2>On the screen</h2>
        <ChoiceTiles
          label="Lengths"
          across={2}
          value={settings.units}
          onChoose={(units) => change.mutate({ units })}
          options={[
            { value: 'imperial', face: 'Yards, feet, inches' },
            { value: 'metric', face: 'Metres' },
          ]}
        />
        <Looks />
        <LetterSettings settings={settings} onChange={(letters) => change.mutate({ letters })} />
      </section>
      <LawnSettings settings={settings} onChange={(lawn) => change.mutate({ lawn })} />
      <RuleSettings settings={settings} onChange={change.mutate} />
      <SpotSettings />
    </div>
  );
};
