import * as v from 'valibot';
import type { SiteFeedline, SiteInstrument, SiteJoint, Transmission } from '../core/site.ts';
import { canonicalBandName } from '../core/sweep/bands.ts';
import {
  closed,
  FRACTION,
  figure,
  given,
  list,
  NOT_NEGATIVE,
  name,
  oneOf,
  POSITIVE,
  POSITIVE_FRACTION,
  quantity,
  text,
} from '../formats/json/json-fields.ts';
import { LINE_LENGTH } from './site-bounds.ts';

const FEET_100_PER_M_100 = 0.3048;

/** The name of a band; `40` and `40 m` become `40m`. */
export const BAND_NAME: v.GenericSchema<unknown, string> = v.pipe(
  text('a band such as 40m'),
  v.transform(canonicalBandName),
);

const lineLoss = v.pipe(
  closed({
    frequency: quantity('frequency', POSITIVE),
    per100m: given(quantity('level', NOT_NEGATIVE, '4.6dB')),
    per100ft: given(quantity('level', NOT_NEGATIVE, '1.4dB')),
  }),
  v.check((l) => (l.per100m === null) !== (l.per100ft === null), 'needs either per100m or per100ft'),
  v.transform((l) => ({
    frequencyHz: l.frequency,
    dbPer100M: l.per100m ?? (l.per100ft ?? 0) / FEET_100_PER_M_100,
  })),
);

/** `feedline` of `site.json`. */
export const FEEDLINE: v.GenericSchema<unknown, SiteFeedline> = v.pipe(
  closed({
    type: given(text('a cable type such as RG-58')),
    length: quantity('length', LINE_LENGTH, '12m or 40ft'),
    impedance: given(quantity('resistance', POSITIVE, '50ohm')),
    velocityFactor: given(figure(POSITIVE_FRACTION)),
    loss: given(list(lineLoss, 1)),
  }),
  v.transform((f) => ({
    type: f.type,
    lengthM: f.length,
    velocityFactor: f.velocityFactor,
    impedanceOhm: f.impedance,
    loss: f.loss ?? [],
  })),
);

/** `instrument` of `site.json`. */
export const INSTRUMENT: v.GenericSchema<unknown, SiteInstrument> = v.pipe(
  closed({
    reference: given(quantity('resistance', POSITIVE, '50ohm')),
    reflectionUncertainty: given(figure(POSITIVE_FRACTION)),
    phaseUncertainty: given(quantity('angle', NOT_NEGATIVE, '2deg')),
  }),
  v.transform((i) => ({
    referenceOhm: i.reference,
    reflectionUncertainty: i.reflectionUncertainty,
    phaseUncertaintyDeg: i.phaseUncertainty,
  })),
);

/** One of the `joints` of `site.json`. */
export const JOINT: v.GenericSchema<unknown, SiteJoint> = v.pipe(
  closed({
    name: name('a name'),
    metals: list(text('a metal'), 1),
    where: given(oneOf(['outdoor', 'indoor', 'controlled'])),
  }),
  v.transform((j) => ({ ...j, where: j.where ?? ('outdoor' as const) })),
);

const SHARE = { ...FRACTION, words: `${FRACTION.words}, such as 0.6 for 60 %` };

/** One entry of `transmit` in `site.json`. */
export const TRANSMISSION: v.GenericSchema<unknown, Transmission> = v.pipe(
  closed({
    band: BAND_NAME,
    peakPower: quantity('power', POSITIVE),
    mode: text('a mode such as ssb'),
    onAirFraction: figure(SHARE),
  }),
  v.transform((t) => ({
    band: t.band,
    peakPowerW: t.peakPower,
    mode: t.mode,
    onAirFraction: t.onAirFraction,
  })),
);
