import { runsOf, widthOf } from './fonts.ts';
import { type Paint, round, type Shape, type Sheet } from './shapes.ts';

const escaped = (text: string): string =>
  text.replaceAll(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);

const paintOf = ({ fill, opacity, stroke }: Paint): string => {
  const parts = [`fill="${fill ?? 'none'}"`];
  if (opacity !== undefined) parts.push(`opacity="${opacity}"`);
  if (stroke) {
    parts.push(`stroke="${stroke.colour}" stroke-width="${round(stroke.width)}"`);
    if (stroke.dash) parts.push(`stroke-dasharray="${stroke.dash.join(' ')}"`);
    if (stroke.cap) parts.push(`stroke-linecap="${stroke.cap}" stroke-linejoin="${stroke.cap}"`);
  }
  return parts.join(' ');
};

type Text = Extract<Shape, { kind: 'text' }>;

/** Where a text begins, given where it is aligned. */
export const startOf = ({ x, text, size, weight, align }: Text): number => {
  if (align === 'left') return x;
  const width = widthOf(text, size, weight);
  return align === 'right' ? x - width : x - width / 2;
};

/** A text as outlines: what draws the picture needs no typeface of its own. */
const textPath = (shape: Text): string => {
  const { y, size, weight, text, colour } = shape;
  let x = startOf(shape);
  const paths: string[] = [];
  for (const { face, text: part, features } of runsOf(text, weight)) {
    const scale = size / face.font.unitsPerEm;
    const { glyphs, positions } = face.font.layout(part, features);
    for (const [index, { xAdvance, xOffset, yOffset }] of positions.entries()) {
      const path = glyphs[index]!.path.scale(scale, -scale);
      paths.push(path.translate(x + xOffset * scale, y - yOffset * scale).toSVG());
      x += xAdvance * scale;
    }
  }
  const d = paths.join('').replaceAll(/-?\d+\.\d+/g, (number) => String(round(Number(number))));
  return `<path aria-label="${escaped(text)}" d="${d}" fill="${colour}"/>`;
};

const elementOf = (shape: Shape): string => {
  switch (shape.kind) {
    case 'rect': {
      const { x, y, width, height, radius = 0 } = shape;
      return `<rect x="${round(x)}" y="${round(y)}" width="${round(width)}" height="${round(height)}" rx="${radius}" ${paintOf(shape)}/>`;
    }
    case 'ellipse': {
      const { x, y, rx, ry, turn = 0 } = shape;
      const turned = turn === 0 ? '' : ` transform="rotate(${round(turn)} ${round(x)} ${round(y)})"`;
      return `<ellipse cx="${round(x)}" cy="${round(y)}" rx="${round(rx)}" ry="${round(ry)}"${turned} ${paintOf(shape)}/>`;
    }
    case 'path':
      return `<path d="${shape.d}" ${paintOf(shape)}/>`;
    case 'text':
      return textPath(shape);
    case 'picture': {
      const { x, y, width, height, jpeg } = shape;
      const data = Buffer.from(jpeg).toString('base64');
      return `<image x="${round(x)}" y="${round(y)}" width="${round(width)}" height="${round(height)}" preserveAspectRatio="none" href="data:image/jpeg;base64,${data}"/>`;
    }
  }
};

/** `sheet` as an SVG file that needs nothing beside itself. One pt is one unit. */
export const toSvg = ({ width, height, label, shapes }: Sheet): string =>
  [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}" height="${round(height)}" viewBox="0 0 ${round(width)} ${round(height)}" role="img">`,
    `<title>${escaped(label)}</title>`,
    ...shapes.map(elementOf),
    '</svg>',
  ].join('\n');
