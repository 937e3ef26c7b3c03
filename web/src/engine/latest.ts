// Runs one thing at a time and, of those that pile up meanwhile, only the newest: the field that a
// person waits for is the one of the last mark.
export function latestOnly<In>(work: (input: In) => Promise<void>): (input: In) => void {
  let busy = false;
  let next: { input: In } | undefined;
  async function drain(): Promise<void> {
    busy = true;
    while (next) {
      const { input } = next;
      next = undefined;
      await work(input);
    }
    busy = false;
  }
  return (input) => {
    next = { input };
    if (!busy) void drain();
  };
}
