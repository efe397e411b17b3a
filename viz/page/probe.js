// What is at a place of a picture: the part that is seen there and the field in it. One place for all pictures of a view, so
// that options are read at the same spot.
import { letters, numberText, inWords } from './words.js';

/** {name, kPa|null} of the last drawn part at (x, y), or null. Linear between a triangle's corners. */
export function readAt(scene, x, y) {
  const p = scene.probe, px = scene.kind === 'axisymmetric' ? Math.abs(x) : x;
  let found = null;
  p.tri.forEach((list, part) => {
    for (let k = 0; k < list.length; k += 3) {
      const [a, b, c] = [list[k], list[k + 1], list[k + 2]];
      const det = (p.x[b] - p.x[a]) * (p.y[c] - p.y[a]) - (p.x[c] - p.x[a]) * (p.y[b] - p.y[a]);
      const s = ((px - p.x[a]) * (p.y[c] - p.y[a]) - (p.x[c] - p.x[a]) * (y - p.y[a])) / det;
      const t = ((p.x[b] - p.x[a]) * (y - p.y[a]) - (px - p.x[a]) * (p.y[b] - p.y[a])) / det;
      if (s < -1e-9 || t < -1e-9 || s + t > 1 + 1e-9) continue;
      const field = p.names[part].field;
      found = { name: p.names[part].name, kPa: field ? p.kPa[a] + s * (p.kPa[b] - p.kPa[a]) + t * (p.kPa[c] - p.kPa[a]) : null };
      break;
    }
  });
  return found;
}

/** Pictures of one view share a probe. `tell` gets the reading of all of them as text. */
export function connectProbe(pictures, words, tell) {
  const place = { x: null, y: null };
  const [wx0, wy0, wx1, wy1] = pictures[0].svg.getAttribute('viewBox').split(' ').map(Number);
  const show = () => {
    const texts = pictures.map(({ svg, scene, run }) => {
      const cross = svg.querySelector('.cross');
      cross.setAttribute('visibility', 'visible');
      cross.setAttribute('transform', `translate(${place.x},${-place.y})`);
      const r = readAt(scene, place.x, place.y);
      return `${letters[run]}: ${!r ? 'outside the model' : r.kPa === null ? inWords(r.name, words) : `${inWords(r.name, words)} ${numberText(r.kPa)} kPa`}`;
    });
    const where = pictures[0].scene.kind === 'sagittal' ? `${numberText(-place.x)} mm behind the toe` : `${numberText(Math.abs(place.x))} mm from the axis`;
    tell(`${where}, ${numberText(place.y)} mm up. ${texts.join('; ')}.`);
  };
  const moved = (event, svg) => {
    const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    place.x = p.x;
    place.y = -p.y;
    show();
  };
  const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  for (const { svg } of pictures) {
    svg.addEventListener('pointermove', (e) => moved(e, svg));
    svg.addEventListener('pointerdown', (e) => moved(e, svg));
    svg.addEventListener('keydown', (e) => {
      const step = steps[e.key];
      if (!step) return;
      e.preventDefault();
      if (place.x === null) [place.x, place.y] = [wx0 + wx1 / 2, -(wy0 + wy1 / 2)];
      const far = e.shiftKey ? 10 : 2;
      place.x += far * step[0];
      place.y += far * step[1];
      show();
    });
  }
}
