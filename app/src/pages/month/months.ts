// Months by their names in the API: 2026-11.

/** The first day of a month. */
export const firstDay = (month: string) => `${month}-01`;

/** From the latest back to the first; none where one of the two is no month. */
export function monthsBack(latest: string, first: string): string[] {
  const months: string[] = [];
  const [firstCount, latestCount] = [countOf(first), countOf(latest)];
  for (let count = latestCount; count >= firstCount; --count) months.push(nameOf(count));
  return months;
}

function countOf(month: string): number {
  const [year, ofYear] = month.split('-').map(Number);
  return year !== undefined && ofYear !== undefined ? year * 12 + (ofYear - 1) : NaN;
}

const nameOf = (count: number) =>
  `${String(Math.floor(count / 12)).padStart(4, '0')}-${String((count % 12) + 1).padStart(2, '0')}`;
