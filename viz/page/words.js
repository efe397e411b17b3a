// One thing, three trades' names for it. The first column is what the server says.
const names = [
  ['distal phalanx', 'coffin bone', 'pedal bone', 'distal phalanx'],
  ['tip of the bone', 'tip of the coffin bone', 'tip of the pedal bone', 'tip of the distal phalanx'],
  ['solar corium', 'quick of the sole', 'sensitive sole', 'solar corium'],
  ['corium', 'quick', 'sensitive sole', 'solar corium'],
  ['lamellae', 'laminae', 'laminae', 'lamellae'],
  ['coffin joint', 'coffin joint', 'coffin joint', 'distal interphalangeal joint'],
  ['pastern joint', 'pastern joint', 'pastern joint', 'proximal interphalangeal joint'],
  ['fetlock joint', 'fetlock', 'fetlock', 'metacarpophalangeal joint'],
  ['navicular', 'navicular', 'navicular', 'distal sesamoid'],
  ['Heel elevation', 'Wedge', 'Graduated heel', 'Heel elevation'],
  ['Width of the web', 'Width of the web', 'Cover', 'Width of the web'],
  ['Set back', 'Set back', 'Set under', 'Palmar set-back of the shoe'],
  ['Packing', 'Packing', 'Sole filler', 'Solar packing'],
  ['packing', 'packing', 'sole filler', 'solar packing'],
  ['clinch', 'clinch', 'clench', 'clinch'],
  ['palmar angle', 'coffin bone angle', 'solar angle', 'palmar angle'],
  ['Palmar angle', 'Coffin bone angle', 'Solar angle', 'Palmar angle'],
  ['digital cushion', 'digital cushion', 'digital cushion', 'pulvinus digitalis'],
  ['heel-off', 'heel-off', 'heel-off', 'heel-off'],
];
const column = { us: 1, uk: 2, vet: 3 };
const pattern = new RegExp(`\\b(${names.map((n) => n[0]).sort((a, b) => b.length - a.length).join('|')})\\b`, 'g');

/** The text in the words of that trade. */
export function inWords(text, trade) {
  return text.replace(pattern, (m) => names.find((n) => n[0] === m)[column[trade] || 1]);
}

/** "6.35 mm (1/4 in)": sixteenths, where a farrier would set them; without the inch if it is none. */
export function inchText(mm) {
  const sixteenths = Math.round((mm / 25.4) * 16);
  if (sixteenths === 0 || Math.abs((sixteenths / 16) * 25.4 - mm) > 0.1) return '';
  const whole = Math.floor(sixteenths / 16), rest = sixteenths % 16;
  const shared = [8, 4, 2, 1].find((d) => rest % d === 0);
  const fraction = rest ? `${rest / shared}/${16 / shared}` : '';
  return `${[whole || '', fraction].filter(Boolean).join(' ')} in`;
}

/** Three significant digits, whole digits kept. */
export function numberText(value) {
  if (value === null || value === undefined || !Number.isFinite(value)) return 'n/a';
  if (value === 0) return '0';
  const size = Math.abs(value);
  return size >= 100 ? value.toFixed(0) : size >= 10 ? value.toFixed(1) : size >= 1 ? value.toFixed(2) : value.toPrecision(2);
}

export const signedText = (value) => (value > 0 ? '+' : '') + numberText(value);
export const letters = 'ABCDEF';
