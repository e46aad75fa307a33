const sameDay = (a: Date, b: Date): boolean => a.toDateString() === b.toDateString();

/** "14:32", "yesterday 14:32", or "3 May, 14:32", in the reader's own zone. */
export const timeOfDay = (instant: number | string, now = Date.now()): string => {
  const then = new Date(instant);
  const time = then.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  if (sameDay(then, new Date(now))) return time;
  if (sameDay(then, new Date(now - 86_400_000))) return `yesterday ${time}`;
  return `${dayName(instant, now)}, ${time}`;
};

/** "Saturday 3 May", with the year when it is another one. */
export const dayName = (instant: number | string, now = Date.now()): string => {
  const then = new Date(instant);
  const otherYear = then.getFullYear() !== new Date(now).getFullYear();
  return then.toLocaleDateString('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    ...(otherYear && { year: 'numeric' }),
  });
};
