// Figures as people read them.

export function money(amount: number): string {
  const rounded = Math.round(Math.abs(amount));
  return `${amount < 0 && rounded > 0 ? '-' : ''}$${rounded.toLocaleString('en-US')}`;
}

/** Chances never read 0 or 100: nothing here is that sure. */
export function chance(p: number): string {
  if (p < 0.01) return 'under 1%';
  if (p > 0.99) return 'over 99%';
  return `${Math.round(p * 100)}%`;
}

export function area(sf: number): string {
  return `${sf < 10 ? sf.toFixed(1) : Math.round(sf)} sf`;
}

/** An id as words: douglas_fir_larch is "douglas fir larch". */
export function spoken(id: string): string {
  return id.replaceAll('_', ' ');
}

export function sentence(words: string): string {
  return words === '' ? '' : words[0]?.toUpperCase() + words.slice(1);
}
