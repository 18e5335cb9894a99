// What this browser remembers: the look and the unit, never anything of a project.

/** A remembered word, if it is one of those expected. */
export function remembered<T extends string>(key: string, expected: readonly T[], otherwise: T): T {
  try {
    const word = localStorage.getItem(`ringwright ${key}`);
    return expected.find((one) => one === word) ?? otherwise;
  } catch {
    return otherwise;
  }
}

export function remember(key: string, word: string): void {
  try {
    localStorage.setItem(`ringwright ${key}`, word);
  } catch {
    // A browser that keeps nothing only forgets the look.
  }
}
