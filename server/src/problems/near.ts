/**
 * The one of `names` that a mistyped `name` most likely stands for; undefined when none is near. Of one or two letters any
 * other is near, so among them only large and small letters are taken for one another.
 */
export function nearestName(name: string, names: Iterable<string>): string | undefined {
  const limit = Math.max(1, Math.floor(name.length / 3));
  let best: string | undefined;
  let least = limit + 1;
  for (const candidate of names) {
    if (candidate === '' || Math.abs(candidate.length - name.length) > least) continue;
    const distance = editDistance(name.toLowerCase(), candidate.toLowerCase());
    if (distance > 0 && Math.max(name.length, candidate.length) < 3) continue;
    if (distance < least || (distance === least && best !== undefined && candidate < best)) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** Least number of letters added, dropped, changed or swapped with their neighbour. */
function editDistance(a: string, b: string): number {
  let beforePrevious: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const current = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (previous[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(change, (previous[j] ?? 0) + 1, (current[j - 1] ?? 0) + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, (beforePrevious[j - 2] ?? 0) + 1);
      current.push(least);
    }
    beforePrevious = previous;
    previous = current;
  }
  return previous[b.length] ?? 0;
}
