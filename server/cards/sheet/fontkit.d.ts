/** The part of fontkit (2.0.4) that is in use. */
declare module 'fontkit' {
  export type Path = {
    scale(x: number, y: number): Path;
    translate(x: number, y: number): Path;
    toSVG(): string;
  };
  export type GlyphRun = {
    readonly advanceWidth: number;
    readonly glyphs: readonly { readonly path: Path }[];
    readonly positions: readonly {
      readonly xAdvance: number;
      readonly xOffset: number;
      readonly yOffset: number;
    }[];
  };
  export type Font = {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string, features?: readonly string[]): GlyphRun;
  };
  export function create(bytes: Uint8Array): Font;
}
