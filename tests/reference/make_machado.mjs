// Writes machado_2009.csv: colours as the matrices of Machado, Oliveira & Fernandes 2009 make them, by
// a plain program of its own that shares no code with ours. The matrices are those that culori 4 (npm)
// holds; culori's own filters put them on gamma-encoded values and round the severity, so only its
// table is used.  npm i culori && node make_machado.mjs > machado_2009.csv
import fs from 'node:fs';

const source = fs.readFileSync('node_modules/culori/src/deficiency.js', 'utf8');
const table = name => JSON.parse(
  source.match(new RegExp(`const ${name} = (\\[[\\s\\S]*?\\n\\]);`))[1].replace(/-0\.0(?=[,\s\]])/g, "0"));
const tables = { protan: table('PROT'), deutan: table('DEUTER'), tritan: table('TRIT') };

const linear = v => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
const encoded = v => (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);
const clip = v => Math.min(1, Math.max(0, v));

console.log('# Source: see make_machado.mjs, which wrote this file. Channels are clipped to 0..255.');
console.log('kind,severity,srgb,seen');
const colours = ['ffffff', '808080', '000000', 'ff0000', '00ff00', '0000ff', 'c04030', '407040',
  '3a5070', 'd8b040', '804060', '60a0a0'];
for (const [kind, list] of Object.entries(tables)) {
  for (const severity of [0, 0.1, 0.35, 0.6, 1]) {
    const low = Math.min(9, Math.floor(severity * 10 + 1e-9));
    const share = severity * 10 - low;
    const m = list[low].map((v, i) => v + share * (list[low + 1][i] - v));
    for (const hex of colours) {
      const rgb = [0, 2, 4].map(i => linear(parseInt(hex.slice(i, i + 2), 16) / 255));
      const out = [0, 3, 6].map(r => Math.round(
        255 * encoded(clip(m[r] * rgb[0] + m[r + 1] * rgb[1] + m[r + 2] * rgb[2]))));
      console.log([kind, severity, `#${hex}`, `#${out.map(v => v.toString(16).padStart(2, '0')).join('')}`].join(','));
    }
  }
}
