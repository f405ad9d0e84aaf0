// Which rows are near what is seen: only those are drawn, so that a shop of any size opens and changes at once.

const MARGIN = '1500px 0px';
const told = new WeakMap<Element, (isNear: boolean) => void>();
let observer: IntersectionObserver | undefined;

function tellAll(entries: IntersectionObserverEntry[]): void {
  for (const entry of entries) told.get(entry.target)?.(entry.isIntersecting);
}

/** Tells whenever the element comes near or goes; gives what ends that. */
export function watchNear(element: Element, tell: (isNear: boolean) => void): () => void {
  observer ??= new IntersectionObserver(tellAll, { rootMargin: MARGIN });
  told.set(element, tell);
  observer.observe(element);
  return () => observer?.unobserve(element);
}
