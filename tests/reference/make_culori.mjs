// Writes culori_pairs.csv: pairs of sRGB colours with CIELAB and CIEDE2000 as culori computes them, to hold
// our conversion and evaluator to an implementation that shares no code with us or with littleCMS.
//
// Run it in a folder outside the source tree (culori is not part of the project):
//     npm install culori@4.0.2
//     cp <source tree>/tests/reference/make_culori.mjs .
//     node make_culori.mjs > <source tree>/tests/reference/culori_pairs.csv
// The seed is fixed, so the same version of culori writes the same bytes.
import { converter, differenceCiede2000, parseHex } from 'culori';

const seed = 20240229;
const pairCount = 12000;

// mulberry32: a small public-domain generator; any would do.
let state = seed;
function random() {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const byte = () => Math.floor(random() * 256);
const near = value => Math.min(255, Math.max(0, value + Math.floor(random() * 25) - 12));
const hex = rgb => '#' + rgb.map(v => v.toString(16).padStart(2, '0')).join('');

// A third far apart, a third as close as threads that replace each other, a third with a grey in it.
function pair(index) {
    const one = [byte(), byte(), byte()];
    if (index % 3 === 0) {
        return [one, [byte(), byte(), byte()]];
    }
    if (index % 3 === 1) {
        return [one, one.map(near)];
    }
    const grey = byte();
    return [[grey, grey, grey], [near(grey), near(grey), near(grey)]];
}

const labOf = converter('lab'); // D50, Bradford
const plain = differenceCiede2000(1, 1, 1);
const textile = differenceCiede2000(2, 1, 1);
const labText = lab => [lab.l, lab.a, lab.b].map(v => (v || 0).toFixed(5));
// culori compares in D65 CIELAB; naming the numbers so keeps it from adapting the D50 ones first.
// The difference is taken from the printed digits, so that they alone set its tolerance.
const asRead = text => ({ mode: 'lab65', l: +text[0], a: +text[1], b: +text[2] });

const lines = [
    '# Source: culori 4.0.2 (npm): lab (D50, Bradford as in CSS Color 4) and differenceCiede2000.',
    '# How the values got here: written by make_culori.mjs beside this file; seed ' + seed + '.',
    '# Digits printed: Lab five decimals, differences six. The differences belong to the Lab values as',
    '#         printed, so a right answer lies within 5e-7 (and rounding) of them.',
    '# Conditions: Lab of 8-bit sRGB, D50, 2° observer; dE11 has kL = kC = kH = 1, dE21 has kL = 2.',
    'one,other,L1,a1,b1,L2,a2,b2,dE11,dE21',
];
for (let i = 0; i < pairCount; ++i) {
    const [one, other] = pair(i).map(hex);
    const labOne = labText(labOf(parseHex(one)));
    const labOther = labText(labOf(parseHex(other)));
    const differences = [plain, textile].map(f => f(asRead(labOne), asRead(labOther)).toFixed(6));
    lines.push([one, other, ...labOne, ...labOther, ...differences].join(','));
}
process.stdout.write(lines.join('\n') + '\n');
