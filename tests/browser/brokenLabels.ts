import type { Page } from 'playwright-core';

/** What is wrong with the pictures of a page. */
export interface BrokenLabels {
  /** Labels that reach out of their picture. */
  readonly cut: readonly string[];
  /** Pairs of labels of which one covers the other. */
  readonly covered: readonly string[];
  readonly labels: number;
  /** True when the page is wider than the window. */
  readonly sideways: boolean;
}

/** Looks at every label of every picture of a page. */
export function brokenLabels(page: Page): Promise<BrokenLabels> {
  return page.evaluate(() => {
    const cut: string[] = [];
    const covered: string[] = [];
    let labels = 0;
    for (const svg of document.querySelectorAll('svg')) {
      const frame = svg.getBoundingClientRect();
      const boxes = [...svg.querySelectorAll('text')]
        .filter((text) => text.textContent !== '' && getComputedStyle(text).opacity !== '0')
        .map((text) => ({ text: text.textContent ?? '', box: text.getBoundingClientRect() }));
      labels += boxes.length;
      for (const { text, box } of boxes) {
        const inside =
          box.left >= frame.left - 1 &&
          box.right <= frame.right + 1 &&
          box.top >= frame.top - 1 &&
          box.bottom <= frame.bottom + 1;
        if (!inside || text.includes('…')) cut.push(text);
      }
      for (const [i, a] of boxes.entries()) {
        for (const b of boxes.slice(i + 1)) {
          const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
          const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
          // Lines of a chart with a line for each module may touch, not cover each other.
          if (wide > 1 && high > 4) covered.push(`${a.text} / ${b.text}`);
        }
      }
    }
    const sideways = document.documentElement.scrollWidth > document.documentElement.clientWidth;
    return { cut, covered, labels, sideways };
  });
}
