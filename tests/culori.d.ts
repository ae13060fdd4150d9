/** The part of culori that the tests use; the package has no types of its own. */
declare module 'culori' {
  export interface Colour {
    readonly mode: string;
    readonly r?: number;
    readonly g?: number;
    readonly b?: number;
    readonly l?: number;
    readonly a?: number;
  }
  export function converter(mode: string): (colour: Colour | string) => Colour;
  export function formatHex(colour: Colour | string): string;
  /** Contrast of WCAG 2.1. */
  export function wcagContrast(one: Colour | string, other: Colour | string): number;
  /** CIE Delta E 2000. */
  export function differenceCiede2000(): (one: Colour | string, other: Colour | string) => number;
  /** Machado, Oliveira & Fernandes 2009, severity 0 to 1. */
  export function filterDeficiencyProt(severity: number): (colour: Colour | string) => Colour;
  export function filterDeficiencyDeuter(severity: number): (colour: Colour | string) => Colour;
  export function filterDeficiencyTrit(severity: number): (colour: Colour | string) => Colour;
}
