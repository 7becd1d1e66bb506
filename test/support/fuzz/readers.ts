import type { FuzzedReader } from './fuzzed-reader.ts';
import { descriptionReader, pageReader, siteReader } from './json-readers.ts';
import { fileNameReader, journalReader, quantityReader } from './logbook-readers.ts';
import { protocolReader } from './protocol-reader.ts';
import {
  canonicalReader,
  csvReader,
  fieldReadingsReader,
  reflectionReader,
  touchstoneReader,
} from './sweep-readers.ts';

/** Everything that reads what others wrote. */
export const READERS: readonly FuzzedReader[] = [
  touchstoneReader,
  csvReader,
  canonicalReader,
  reflectionReader,
  fieldReadingsReader,
  journalReader,
  siteReader,
  descriptionReader,
  protocolReader,
  pageReader,
  quantityReader,
  fileNameReader,
];
