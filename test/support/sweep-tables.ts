/** Sweep files as people have them, invented, each with what must come of it. */
import type { ReadOptions } from '../../src/formats/read-options.ts';

export interface SweepTable {
  readonly what: string;
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly options?: ReadOptions;
  /** Points of each sweep: Hz, ohm, ohm; or Hz and SWR. Null: refused as a whole. */
  readonly sweeps: readonly (readonly (readonly number[])[])[] | null;
  /** `severity code line:column` of each problem, in order. */
  readonly problems?: readonly string[];
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

function utf16(text: string, littleEndian: boolean): Uint8Array {
  const view = new DataView(new ArrayBuffer(2 * text.length + 2));
  for (const [i, character] of [...`\ufeff${text}`].entries()) {
    view.setUint16(2 * i, character.charCodeAt(0), littleEndian);
  }
  return new Uint8Array(view.buffer);
}

/** Bytes of a text whose characters are all below 256. */
const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

/** The sweep that most tables hold. */
const PLAIN = [
  [
    [7e6, 36.5, -12.25],
    [7.1e6, 37.5, 0.5],
    [7.2e6, 38.25, 13],
  ],
];

const SWR = [
  [
    [7e6, 1.5],
    [7.1e6, 1.25],
    [7.2e6, 2],
  ],
];

const UTF8_TABLES: readonly (readonly [what: string, text: string, rest?: Partial<SweepTable>])[] = [
  [
    'our own file',
    'frequency_hz,resistance_ohm,reactance_ohm\n7000000,36.5,-12.25\n7100000,37.5,0.5\n7200000,38.25,13\n',
  ],
  [
    'our own file after a spreadsheet has saved it',
    '\ufefffrequency_hz;resistance_ohm;reactance_ohm\r\n7000000;36,5;-12,25\r\n7100000;37,5;0,5\r\n7200000;38,25;13\r\n',
  ],
  ['comma and point', 'Freq (MHz),R (ohm),X (ohm)\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n'],
  [
    'blanks behind the commas',
    'freq[Hz], R [Ω], X [Ω]\n7000000, 36.5, -12.25\n7100000, 37.5, 0.5\n7200000, 38.25, 13\n',
  ],
  ['semicolon and decimal comma', 'Frequenz / MHz;Rs;Xs\n7,0;36,5;-12,25\n7,1;37,5;0,5\n7,2;38,25;13,0\n'],
  ['tab and decimal comma', 'f MHz\tRe(Z)\tIm(Z)\n7,0\t36,5\t-12,25\n7,1\t37,5\t0,5\n7,2\t38,25\t13,0\n'],
  [
    'runs of blanks',
    '  Frequency(kHz)   R    X\n  7000   36.5  -12.25\n  7100   37.5    0.5\n  7200   38.25  13\n',
  ],
  [
    'header in a comment, spaced otherwise than the rows',
    '! a garden\n# frequency [MHz]   real(z)   imag(z)\n7.0\t36.5\t-12.25\n7.1\t37.5\t0.5\n7.2\t38.25\t13\n',
  ],
  ['unit glued to a comment sign', '#MHz R X\n7 36.5 -12.25\n7.1 37.5 0.5\n7.2 38.25 13\n'],
  ['hint of a spreadsheet', 'sep=;\nMHz;R;X\n7;36.5;-12.25\n7.1;37.5;0.5\n7.2;38.25;13\n'],
  [
    'quoted decimal commas',
    '"MHz","R","X"\n"7,0","36,5","-12,25"\n"7,1","37,5","0,5"\n"7,2","38,25","13,0"\n',
  ],
  ['trailing delimiters', 'MHz;R;X;\n7;36.5;-12.25;\n7.1;37.5;0.5;\n7.2;38.25;13;\n'],
  ['trailing delimiters in the header alone', 'MHz,R,X,,\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n'],
  [
    'trailing delimiters in the rows alone',
    'MHz;R;X\n7,0;36,5;-12,25;;;\n7,1;37,5;0,5;;;\n7,2;38,25;13;;;\n',
  ],
  ['trailing tabs', 'MHz\tR\tX\t\n7\t36.5\t-12.25\t\n7.1\t37.5\t0.5\t\n7.2\t38.25\t13\t\n'],
  ['trailing delimiters in some rows', 'MHz,R,X\n7,36.5,-12.25,\n7.1,37.5,0.5\n7.2,38.25,13,,\n'],
  [
    'a last column that is named and empty',
    'MHz;R;X;remark\n7,0;36,5;-12,25;\n7,1;37,5;0,5;\n7,2;38,25;13;\n',
  ],
  [
    'a last column that is named, quoted and empty but for a word',
    '"MHz","R","X","remark"\n"7","36.5","-12.25",""\n"7.1","37.5","0.5","rain"\n"7.2","38.25","13",""\n',
  ],
  [
    'trailing delimiters without a header, columns stated',
    '7,36.5,-12.25,\n7.1,37.5,0.5,\n7.2,38.25,13,\n',
    { options: { columns: 'MHz,R,X' } },
  ],
  [
    'metadata above, wrappers around',
    'Operator,somebody\nPoints,3\nSpan,7,7.2\nBEGIN\nHz,R,X\n7.0E6,36.5,-1.225E+001\n7.1E6,37.5,5.0E-001\n7.2E6,38.25,+13\nEND\n',
  ],
  [
    'units in a line of their own',
    'Frequency;Resistance;Reactance\nMHz;Ohm;Ohm\n7;36.5;-12.25\n7.1;37.5;0.5\n7.2;38.25;13\n',
  ],
  [
    'more columns than are needed',
    'No,time,MHz,SWR,|Z|,R,X\n1,12:30:01,7,9,9,36.5,-12.25\n2,12:30:02,7.1,9,9,37.5,0.5\n3,12:30:03,7.2,9,9,38.25,13\n',
  ],
  ['thousands of ohms', 'MHz,R (kΩ),X (kΩ)\n7,0.0365,-0.01225\n7.1,0.0375,0.0005\n7.2,0.03825,0.013\n'],
  ['comments between the rows', 'MHz,R,X\n7,36.5,-12.25\n# a 6" pipe\n7.1,37.5,0.5\n\n7.2,38.25,13\n'],
  ['no line end at the end', 'MHz,R,X\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13'],
  ['CR line ends', 'MHz,R,X\r7,36.5,-12.25\r7.1,37.5,0.5\r7.2,38.25,13\r'],
  [
    'no header, columns stated',
    '7,36.5,1,-12.25\n7.1,37.5,1,0.5\n7.2,38.25,1,13\n',
    { options: { columns: 'MHz,R,-,X' } },
  ],
  [
    'no header, a bad cell in the first row',
    'Span,7,7.2\n6.9,bad,1\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n',
    { options: { columns: 'MHz,R,X' }, problems: ['refused number-wrong 2:5'] },
  ],
  [
    'no header',
    '7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n',
    { sweeps: null, problems: ['refused header-none 1'] },
  ],
  [
    'no unit, but only MHz touches a band',
    'freq,R,X\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n',
    { problems: ['note frequency-unit-assumed'] },
  ],
  [
    'no unit, two of them plausible',
    'freq,R,X\n10,36.5,-12.25\n3000,37.5,0.5\n',
    { sweeps: null, problems: ['refused frequency-unit-open'] },
  ],
  [
    'no unit, said by a flag',
    'freq,R,X\n144,36.5,-12.25\n145,37.5,0.5\n',
    {
      options: { unit: 'MHz' },
      sweeps: [
        [
          [144e6, 36.5, -12.25],
          [145e6, 37.5, 0.5],
        ],
      ],
    },
  ],
  [
    'falling frequencies',
    'MHz,R,X\n7.2,38.25,13\n7.1,37.5,0.5\n7,36.5,-12.25\n',
    { problems: ['note sweep-reversed 2'] },
  ],
  [
    'the first point twice',
    'MHz,R,X\n7,36.5,-12.25\n7,36.4,-12\n7.1,37.5,0.5\n7.2,38.25,13\n',
    { problems: ['note frequency-repeated 3'] },
  ],
  [
    'rows out of order',
    'MHz,R,X\n7,1,1\n7.1,1,1\n7.3,1,1\n7.2,1,1\n7.4,1,1\n',
    { sweeps: null, problems: ['refused frequencies-unsorted 5'] },
  ],
  [
    'two sweeps one after another',
    'MHz,R,X\n7,1,1\n7.1,2,2\n7.2,3,3\n7,4,4\n7.1,5,5\n7.2,6,6\n',
    {
      sweeps: [
        [
          [7e6, 1, 1],
          [7.1e6, 2, 2],
          [7.2e6, 3, 3],
        ],
        [
          [7e6, 4, 4],
          [7.1e6, 5, 5],
          [7.2e6, 6, 6],
        ],
      ],
      problems: ['note several-sweeps'],
    },
  ],
  [
    'two ranges, each under its header',
    'MHz,R,X\n7,1,1\n7.2,2,2\nMHz,R,X\n14,3,3\n14.3,4,4\n',
    {
      sweeps: [
        [
          [7e6, 1, 1],
          [7.2e6, 2, 2],
        ],
        [
          [14e6, 3, 3],
          [14.3e6, 4, 4],
        ],
      ],
      problems: ['note several-sweeps'],
    },
  ],
  [
    'gaps',
    'MHz,R,X\n7,36.5,-12.25\n7.05,,\n7.07,---,NaN\n7.1,37.5,0.5\n7.2,38.25,13\n',
    {
      problems: [
        'note value-missing 3:6',
        'note value-missing 3:7',
        'note value-missing 4:6',
        'note value-missing 4:10',
      ],
    },
  ],
  [
    'a cell that is no number',
    'MHz,R,X\n7,36.5,-12.25\n7.05,n0,1\n7.1,37.5,0.5\n7.2,38.25,13\n',
    { problems: ['refused number-wrong 3:6'] },
  ],
  [
    'a bad cell in the first row',
    'MHz,R,X\n6.9,bad,1\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n',
    { problems: ['refused number-wrong 2:5'] },
  ],
  [
    'first rows without a value',
    'MHz,SWR\n6.9,>10\n7,1.5\n7.1,1.25\n7.2,2\n',
    {
      sweeps: [
        [
          [6.9e6, Number.NaN],
          [7e6, 1.5],
          [7.1e6, 1.25],
          [7.2e6, 2],
        ],
      ],
      problems: ['note value-missing 2:5'],
    },
  ],
  [
    'a row that is cut short',
    'MHz,R,X\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n7.3,4',
    { problems: ['refused row-width 5:6'] },
  ],
  [
    'a row with a cell too many',
    'MHz,R,X,\n7,36.5,-12.25,\n7.05,37,-6,5\n7.1,37.5,0.5,\n7.2,38.25,13,\n',
    { problems: ['refused row-width 3:12'] },
  ],
  [
    'a row without its last cell where the others have it',
    'MHz,R,X,SWR\n7,36.5,-12.25,9\n7.05,37,-6\n7.1,37.5,0.5,\n7.2,38.25,13,9\n',
    { problems: ['refused row-width 3:11'] },
  ],
  [
    'decimal commas between commas',
    'MHz,R,X\n7,1,36,5,1,2\n7,2,37,5,1,3\n',
    { sweeps: null, problems: ['refused header-misfit 2'] },
  ],
  [
    'commas that may part thousands',
    'kHz;R;X\n7,100;36,500;1,250\n7,200;37,500;2,250\n',
    { sweeps: null, problems: ['refused decimal-mark-open 2'] },
  ],
  [
    'commas that may part thousands, but for one value far down',
    `kHz;R;X\n${Array.from({ length: 60 }, (_, i) => `${7000 + i};36,500;\u22121,250\n`).join('')}7060;36,500;-0,505\n`,
    {
      sweeps: [
        [
          ...Array.from({ length: 60 }, (_, i): [number, number, number] => [7e6 + i * 1000, 36.5, -1.25]),
          [7_060_000, 36.5, -0.505],
        ],
      ],
    },
  ],
  [
    'commas that may part thousands, one of them behind a typographic minus',
    'kHz;R;X\n7100;36,500;\u22121,250\n7200;37,500;2,250\n',
    { sweeps: null, problems: ['refused decimal-mark-open 2'] },
  ],
  [
    'commas that may part thousands, said by a flag',
    'MHz;R;X\n7,000;36,500;-12,250\n7,100;37,500;1,500\n',
    {
      options: { decimal: 'comma' },
      sweeps: [
        [
          [7e6, 36.5, -12.25],
          [7.1e6, 37.5, 1.5],
        ],
      ],
    },
  ],
  [
    'thousands and decimals',
    "kHz;R;X\n7'100.5;36.5;1\n7'200.5;37.5;2\n",
    {
      sweeps: null,
      problems: ['refused number-wrong 2:1', 'refused number-wrong 3:1', 'refused data-none 2'],
    },
  ],
  [
    'units in the cells',
    'Frequency,R,X\n7.0 MHz,36.5 ohm,-12.25 Ω\n7.1 MHz,37.5 ohm,0.5 Ω\n',
    { sweeps: null, problems: ['refused units-in-cells 2'] },
  ],
  ['a header alone', 'MHz,R,X\n', { sweeps: null, problems: ['refused table-none'] }],
  [
    'no number but what has thousands',
    'Hz;R\n7.000.000;1.036,5\n7.100.000;1.037,5\n',
    { sweeps: null, problems: ['refused thousands 2'] },
  ],
  [
    'a level and a phase with the transmission beside them',
    'Freq(Hz),S11 dB,S11 deg,S21 dB,S21 deg\n7e6,-20,0,-60,10\n7.1e6,-20,180,-61,9\n',
    {
      problems: ['note reference-assumed'],
      sweeps: [
        [
          [7e6, (50 * 1.1) / 0.9, 0],
          [7.1e6, (50 * 0.9) / 1.1, 0],
        ],
      ],
    },
  ],
  [
    'date and time in columns of their own',
    'Date,Time,Freq(MHz),R,X\n2026-01-01,12:30:01.5,7,36.5,-12.25\n2026-01-01,12:30:02.5,7.1,37.5,0.5\n2026-01-01,12:30:03.5,7.2,38.25,13\n',
  ],
  [
    'runs of scientific notation with signs',
    '  +7.000000E+06  +3.65000E+01 -1.225E+001\n  +7.100000E+06  +3.75E+01 +5.0E-01\n +7.2E6 +38.25 13\n',
    { options: { columns: 'Hz,R,X' } },
  ],
  [
    'size and phase of the impedance',
    'Hz,|Z| (Ω),phase (°)\n7e6,50,0\n7.1e6,50,90\n',
    {
      sweeps: [
        [
          [7e6, 50, 0],
          [7.1e6, 0, 50],
        ],
      ],
    },
  ],
  [
    'small phases of the impedance without a unit',
    'MHz,|Z|,phase\n7,50,-0.5\n7.1,48,0.1\n7.2,52,1.2\n',
    { sweeps: null, problems: ['refused phase-unit-open'] },
  ],
  [
    'small phases without a unit, said by a flag to be radians',
    'MHz,|Z|,phase\n7,50,0\n7.1,50,1.5707963267948966\n',
    {
      options: { angle: 'rad' },
      sweeps: [
        [
          [7e6, 50, 0],
          [7.1e6, 0, 50],
        ],
      ],
    },
  ],
  [
    'small phases of which the header says that they are degrees',
    'MHz,|Z|,phase °\n7,50,0\n7.1,50,1.5\n',
    {
      sweeps: [
        [
          [7e6, 50, 0],
          [7.1e6, 49.98286624877786, 1.3088474153936576],
        ],
      ],
    },
  ],
  [
    'phases too large for radians of an impedance',
    'MHz,|Z|,theta\n7,50,0\n7.1,50,90\n',
    {
      sweeps: [
        [
          [7e6, 50, 0],
          [7.1e6, 0, 50],
        ],
      ],
    },
  ],
  [
    'phases of the reflection within ±π without a unit',
    'MHz;S11 dB;phase\n7;-20;3,1\n7,1;-20;-1,5\n',
    { sweeps: null, problems: ['refused phase-unit-open'] },
  ],
  [
    'phases of zero, in which no unit shows',
    'MHz,|Z|,phase\n7,50,0\n7.1,40,0\n',
    {
      sweeps: [
        [
          [7e6, 50, 0],
          [7.1e6, 40, 0],
        ],
      ],
    },
  ],
  [
    'size and phase of who knows what',
    'MHz,mag,phase\n7,0.5,20\n7.1,0.4,10\n',
    { sweeps: null, problems: ['refused columns-open 2'] },
  ],
  [
    'a bare reflection within 0 to 1',
    'MHz,S11\n7,0.5\n7.1,0.2\n',
    {
      problems: ['note reflection-form-assumed'],
      sweeps: [
        [
          [7e6, 3],
          [7.1e6, 1.5],
        ],
      ],
    },
  ],
  [
    'parts of the reflection',
    'Hz,Re(S11),Im(S11)\n7e6,0,0\n7.1e6,-0.5,0\n',
    {
      problems: ['note reference-assumed'],
      sweeps: [
        [
          [7e6, 50, 0],
          [7.1e6, 50 / 3, 0],
        ],
      ],
    },
  ],
  [
    'level and phase of the reflection',
    'MHz;S11 (dB);S11 (deg)\n7;-20;0\n7.1;-20;180\n',
    {
      problems: ['note reference-assumed'],
      sweeps: [
        [
          [7e6, (50 * 1.1) / 0.9, 0],
          [7.1e6, (50 * 0.9) / 1.1, 0],
        ],
      ],
    },
  ],
  [
    'return loss and phase, with a reference',
    'MHz;Return Loss (dB);Phase (rad)\n7;20;0\n7.1;20;0\n',
    {
      options: { referenceOhm: 75 },
      sweeps: [
        [
          [7e6, (75 * 1.1) / 0.9, 0],
          [7.1e6, (75 * 1.1) / 0.9, 0],
        ],
      ],
    },
  ],
  ['SWR alone', 'Frequency MHz,SWR\n7,1.5\n7.1,1.25\n7.2,2\n', { sweeps: SWR }],
  [
    'SWR with what is too high to show',
    'MHz,VSWR\n7,1.5\n7.05,>10\n7.06,inf\n7.1,1.25\n7.2,2\n',
    {
      sweeps: [
        [
          [7e6, 1.5],
          [7.05e6, Number.NaN],
          [7.06e6, Number.NaN],
          [7.1e6, 1.25],
          [7.2e6, 2],
        ],
      ],
      problems: ['note value-missing 3:6', 'note value-missing 4:6'],
    },
  ],
  [
    'an SWR below one',
    'MHz,SWR\n7,1.5\n7.1,0.9\n7.2,2\n',
    {
      sweeps: [
        [
          [7e6, 1.5],
          [7.1e6, Number.NaN],
          [7.2e6, 2],
        ],
      ],
      problems: ['refused swr-below-one 3'],
    },
  ],
  [
    'return loss above zero',
    'MHz,RL\n7,20\n7.1,20\n',
    {
      sweeps: [
        [
          [7e6, 11 / 9],
          [7.1e6, 11 / 9],
        ],
      ],
    },
  ],
  [
    'return loss below zero',
    'MHz,RL\n7,-20\n7.1,-20\n',
    {
      sweeps: [
        [
          [7e6, 11 / 9],
          [7.1e6, 11 / 9],
        ],
      ],
    },
  ],
  [
    'resistance and reactance without a sign',
    'MHz,R,|X|\n7,100,0\n7.1,25,0\n',
    {
      sweeps: [
        [
          [7e6, 2],
          [7.1e6, 2],
        ],
      ],
    },
  ],
  [
    'real and imaginary part of who knows what',
    'MHz,Real,Imag\n7,0.1,0.2\n7.1,0.1,0.3\n',
    { sweeps: null, problems: ['refused columns-open 2'] },
  ],
  [
    'a phase that may belong to either',
    'MHz,|Z|,S11 (dB),Phase\n7,40,-12,30\n7.1,40,-12,20\n',
    { sweeps: null, problems: ['refused columns-open 2'] },
  ],
  [
    'two traces side by side',
    'MHz,R,X,R,X\n7,1,2,3,4\n7.1,1,2,3,4\n',
    { sweeps: null, problems: ['refused columns-open 2'] },
  ],
  [
    'a bare S11 above one',
    'MHz,S11\n7,10\n7.1,12\n',
    { sweeps: null, problems: ['refused reflection-form-open'] },
  ],
  [
    'a table under a Touchstone name',
    'MHz,R,X\n7,36.5,-12.25\n7.1,37.5,0.5\n7.2,38.25,13\n',
    { file: 'table.s1p' },
  ],
  [
    'Touchstone without option line',
    'BEGIN\nDB\n7000000 -12 30\n7100000 -13 20\nEND\n',
    { file: 'wrapped.s1p', sweeps: null, problems: ['refused option-line-missing 1'] },
  ],
  [
    'Touchstone without option line, columns stated',
    'BEGIN\nDB\n7000000 -20 0\n7100000 -20 0\nEND\n',
    {
      file: 'wrapped.s1p',
      options: { columns: 'Hz,S11 dB,phase' },
      problems: ['note reference-assumed'],
      sweeps: [
        [
          [7e6, (50 * 1.1) / 0.9, 0],
          [7.1e6, (50 * 1.1) / 0.9, 0],
        ],
      ],
    },
  ],
  [
    'Touchstone under a name that says nothing',
    '# MHz Z RI R 1\n7 36.5 -12.25\n7.1 37.5 0.5\n7.2 38.25 13\n',
    { file: 'sweep.txt' },
  ],
  ['nothing', '', { sweeps: null, problems: ['refused table-none'] }],
  ['a web page', '<html>\n<p>7 7.1</p>\n', { sweeps: null, problems: ['refused table-none'] }],
  ['zeros as of a binary file', 'PK\u0003\u0000\u0000', { sweeps: null, problems: ['refused file-binary'] }],
];

const ENCODED: readonly SweepTable[] = [
  {
    what: 'UTF-16, little end first',
    file: 'export.txt',
    bytes: utf16('Freq (MHz)\t|Z| (Ω)\tPhase (°)\r\n7\t50\t0\r\n7.1\t50\t90\r\n', true),
    sweeps: [
      [
        [7e6, 50, 0],
        [7.1e6, 0, 50],
      ],
    ],
  },
  {
    what: 'UTF-16, big end first',
    file: 'export.txt',
    bytes: utf16('MHz;R;X\n7;36.5;-12.25\n7.1;37.5;0.5\n7.2;38.25;13\n', false),
    sweeps: PLAIN,
  },
  {
    what: 'windows-1252',
    file: 'old.csv',
    bytes: latin1('Fréquence (MHz);|Z|;phase (\u00b0)\n7,0;50,0;0\n7,1;50,0;90\n'),
    sweeps: [
      [
        [7e6, 50, 0],
        [7.1e6, 0, 50],
      ],
    ],
    problems: ['note encoding-assumed'],
  },
  {
    what: 'an ohm sign that an encoding has mangled',
    file: 'old.csv',
    bytes: latin1('MHz;R (\u00ea);X (\u00ea)\n7;36.5;-12.25\n7.1;37.5;0.5\n7.2;38.25;13\n'),
    sweeps: PLAIN,
    problems: ['note encoding-assumed'],
  },
];

export const TABLES: readonly SweepTable[] = [
  ...UTF8_TABLES.map(
    ([what, text, rest]): SweepTable => ({
      what,
      file: 'table.csv',
      bytes: utf8(text),
      sweeps: PLAIN,
      ...rest,
    }),
  ),
  ...ENCODED,
];
