// What this browser promises about what it keeps: whether it may clear the jobs, and whether it did.

const COUNT = 'awlmark.jobs';

export async function persisted(): Promise<boolean | undefined> {
  try {
    return (await navigator.storage?.persisted?.()) || (await navigator.storage?.persist?.());
  } catch {
    return undefined;
  }
}

/** How many jobs there were when last looked; more than there are now means that something cleared them. */
export function lost(jobs: number): number {
  try {
    const were = Number(localStorage.getItem(COUNT) ?? '0');
    return Math.max(0, were - jobs);
  } catch {
    return 0;
  }
}
export function remember(jobs: number): void {
  try {
    localStorage.setItem(COUNT, String(jobs));
  } catch {
    // The count only serves a message; the jobs themselves are in the database.
  }
}
