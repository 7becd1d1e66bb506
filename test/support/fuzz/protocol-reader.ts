import { decodeLine } from '../../../src/instrument/codec/decode-line.ts';
import { encodeMessage, withChecksum } from '../../../src/instrument/codec/encode-message.ts';
import { LineSplitter } from '../../../src/instrument/codec/line-splitter.ts';
import { SweepAssembler } from '../../../src/instrument/codec/sweep-assembler.ts';
import { parseExchanges, readRows, readWorkedExchangeRows } from '../protocol-vectors.ts';
import { type FuzzedReader, require } from './fuzzed-reader.ts';

/** What an instrument says in the worked exchanges, one seed each. */
function heardInExchanges(): Uint8Array[] {
  const exchanges = parseExchanges([...readWorkedExchangeRows(), ...readRows('vectors/exchanges.txt')]);
  return exchanges.map(({ rows }) => Buffer.from(sealLines(rows.map(({ text }) => text).join('\n'))));
}

/** Makes the checksum of each line right. */
function sealLines(text: string): string {
  return text
    .split('\n')
    .map((line) => withChecksum(line.replace(/\*[^*]*$/u, '')))
    .join('\n');
}

export const protocolReader: FuzzedReader = {
  name: 'protocol',
  seeds: heardInExchanges().filter((bytes) => bytes.length > 0),
  words: (
    'who,1,1,1|walk,2,7000000,7200000,3|begin,2,7000000,7200000,3|p,2,0,-150000,20000|p,2,1,0,0|p,2,65534,1,1|' +
    'end,2,3,29B1|again,2,0,2|fault,2,busy,wait|alive,0,2,1|woke,1,1|*0000|,|-0|0x1'
  ).split('|'),
  seal: sealLines,
  read: (bytes) => {
    const lines = linesOf(bytes, bytes.length || 1);
    const inPieces = linesOf(bytes, 1 + (bytes.length % 13));
    require(lines.join('\n') === inPieces.join('\n'), 'the size of the pieces changes the lines');
    const assembler = new SweepAssembler(2, { startHz: 7e6, stopHz: 7.2e6, points: 3 });
    for (const line of lines) {
      const message = decodeLine(Buffer.from(line, 'latin1'));
      if (message.kind === 'unreadable') continue;
      require(encodeMessage(message) === `${line}\n`, 'a message that is written otherwise than it came');
      assembler.accept(message);
      require(assembler.complete || assembler.nextAgain() !== null, 'a sweep that nothing can complete');
    }
    const sweep = assembler.sweep();
    require(sweep === null || sweep.reflectionRe.every(Number.isFinite), 'a sweep with a hole');
  },
};

function linesOf(bytes: Uint8Array, size: number): string[] {
  const splitter = new LineSplitter();
  const lines: string[] = [];
  for (let from = 0; from < bytes.length; from += size) {
    for (const line of splitter.push(bytes.slice(from, from + size)))
      lines.push(Buffer.from(line).toString('latin1'));
  }
  return lines;
}
