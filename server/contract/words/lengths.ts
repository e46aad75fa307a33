import { METRES_PER_YARD } from '../../units/numbers.ts';
import type { UnitSystem } from '../settings.ts';

const METRES_PER_INCH = METRES_PER_YARD / 36;
const EIGHTHS = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'] as const;
/** Below this a length in inches is told to the eighth, above it to the half. */
const FINE_INCHES = 6;

/** `metres` rounded to whole millimetres, without a unit and without sign: "34". */
export const wholeMillimetres = (metres: number): string => String(Math.round(Math.abs(metres) * 1000));

/** Inches as a carpenter says them: "1⅜ in". */
const inches = (metres: number): string => {
  const value = Math.abs(metres) / METRES_PER_INCH;
  const step = value < FINE_INCHES ? 8 : 2;
  const eighths = (Math.round(value * step) * 8) / step;
  const whole = Math.floor(eighths / 8);
  const part = EIGHTHS[eighths % 8]!;
  return `${whole || part === '' ? whole : ''}${part} in`;
};

/** A length on the lawn in yards, feet and inches: "7 yd 2 ft", "1 ft 4 in"; to the inch, without sign. */
const yardsFeetInches = (metres: number): string => {
  const total = Math.round(Math.abs(metres) / METRES_PER_INCH);
  const parts = [
    [Math.floor(total / 36), 'yd'],
    [Math.floor((total % 36) / 12), 'ft'],
    [total % 12, 'in'],
  ] as const;
  return (
    parts
      .filter(([count]) => count > 0)
      .map(([count, unit]) => `${count} ${unit}`)
      .join(' ') || '0 in'
  );
};

/** A distance across the lawn, without sign: "7 yd 2 ft" or "7.01 m". */
export const distance = (metres: number, units: UnitSystem): string =>
  units === 'imperial' ? yardsFeetInches(metres) : `${Math.abs(metres).toFixed(2)} m`;

/**
 * A margin, without sign: "34 mm", with inches behind it where the club uses them: "34 mm (1⅜ in)". From 1 m on it is a distance. Margins
 * are always told in mm first because the pictures are drawn in mm.
 */
export const margin = (metres: number, units: UnitSystem): string => {
  if (Math.abs(metres) >= 0.9995) return distance(metres, units);
  const mm = `${wholeMillimetres(metres)} mm`;
  return units === 'imperial' ? `${mm} (${inches(metres)})` : mm;
};
