// Times as they are on this device's clock, with its zone: "2026-05-04T11:10:00+02:00".

const two = (n: number) => String(n).padStart(2, '0');

export function stamp(at: Date): string {
  const minutes = -at.getTimezoneOffset();
  const sign = minutes < 0 ? '-' : '+';
  const zone = `${sign}${two(Math.floor(Math.abs(minutes) / 60))}:${two(Math.abs(minutes) % 60)}`;
  const date = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return `${date}T${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}${zone}`;
}

/** A stored time as people read it here, with the zone's short name. */
export function sayTime(text: string): string {
  const at = new Date(text);
  if (Number.isNaN(at.getTime())) return text;
  return at.toLocaleString(undefined, {
    year: 'numeric',
    month: 'short',
    day: 'numeric',
    hour: 'numeric',
    minute: '2-digit',
    timeZoneName: 'short',
  });
}

export function sayDate(text: string): string {
  const [year, month, day] = text.split('-').map(Number);
  if (!year || !month || !day) return text;
  return new Date(year, month - 1, day).toLocaleDateString(undefined, {
    weekday: 'short',
    year: 'numeric',
    month: 'short',
    day: 'numeric',
  });
}

/** A day where its year is plain: "Mon, May 11". */
export function sayDay(text: string): string {
  const [year, month, day] = text.slice(0, 10).split('-').map(Number);
  if (!year || !month || !day) return text;
  return new Date(year, month - 1, day).toLocaleDateString(undefined, { weekday: 'short', month: 'short', day: 'numeric' });
}

/** The day that a week begins with, as short as it can be said: "May 11". */
export function sayWeek(text: string): string {
  const [year, month, day] = text.slice(0, 10).split('-').map(Number);
  return new Date(year ?? 0, (month ?? 1) - 1, day ?? 1).toLocaleDateString(undefined, { month: 'short', day: 'numeric' });
}
