/**
 * The messages of the line protocol, as `firmware-protocol/README.md` defines them. Every number is
 * an integer, as on the wire; {@link MESSAGE_LAYOUTS} holds the order and the limits of the fields.
 */
export type Message = Request | Reply;

/** What the host sends. */
export type Request = Who | Walk | Again | Halt | There;

/** What the instrument sends. */
export type Reply = Woke | IAm | Begin | Point | End | Still | Alive | Fault;

/** The kind of a message. */
export type MessageKind = Message['kind'];

/** Who are you? The protocol versions that the host speaks are given. */
export interface Who {
  readonly kind: 'who';
  readonly id: number;
  readonly oldest: number;
  readonly newest: number;
}

/** Take a sweep. The frequencies are those of {@link gridFrequencyHz}. */
export interface Walk {
  readonly kind: 'walk';
  readonly id: number;
  readonly startHz: number;
  readonly stopHz: number;
  readonly points: number;
}

/** Send points `first` to `last`, both included, of the finished sweep `id` once more. */
export interface Again {
  readonly kind: 'again';
  readonly id: number;
  readonly first: number;
  readonly last: number;
}

/** Stop now. */
export interface Halt {
  readonly kind: 'halt';
  readonly id: number;
}

/** Are you there? */
export interface There {
  readonly kind: 'there';
  readonly id: number;
}

/** The power-up greeting. In the midst of a sweep it means that the instrument was reset. */
export interface Woke {
  readonly kind: 'woke';
  readonly oldest: number;
  readonly newest: number;
}

/** Whether the instrument applies a correction of its own, or leaves that to the host. */
export type Correction = 'raw' | 'cal';

/** Where the reflection is referred to: the instrument's connector, or where its standards were fitted. */
export type Plane = 'port' | 'lead';

/** The answer to {@link Who}. */
export interface IAm {
  readonly kind: 'iam';
  readonly id: number;
  readonly version: number;
  readonly lowestHz: number;
  readonly highestHz: number;
  readonly mostPoints: number;
  readonly correction: Correction;
  readonly plane: Plane;
  readonly referenceMilliohm: number;
  readonly model: string;
  readonly serial: string;
}

/** The sweep starts; the request is repeated so that both sides know the same grid. */
export interface Begin {
  readonly kind: 'begin';
  readonly id: number;
  readonly startHz: number;
  readonly stopHz: number;
  readonly points: number;
}

/** One point of sweep `id`: real and imaginary part of the reflection coefficient in millionths. */
export interface Point {
  readonly kind: 'point';
  readonly id: number;
  readonly number: number;
  readonly reMicro: number;
  readonly imMicro: number;
}

/** All points of sweep `id` have been sent. The checksum is that of {@link sweepChecksum}. */
export interface End {
  readonly kind: 'end';
  readonly id: number;
  readonly points: number;
  readonly checksum: number;
}

/** The answer to {@link Halt}: no line of an earlier sweep follows. */
export interface Still {
  readonly kind: 'still';
  readonly id: number;
}

/** The answer to {@link There}, or (id 0) a sign of life between slow points. `sweep` is 0 when none runs. */
export interface Alive {
  readonly kind: 'alive';
  readonly id: number;
  readonly sweep: number;
  readonly sent: number;
}

/** The reasons an instrument can give, in the order of the table in the prose. */
export const FAULT_CODES = [
  'garbled',
  'unknown',
  'form',
  'version',
  'unmet',
  'range',
  'gone',
  'busy',
  'overload',
  'unlocked',
  'supply',
  'heat',
  'broken',
] as const;

/** What an instrument may report as its fault. */
export type FaultCode = (typeof FAULT_CODES)[number];

/** The request `id` is over and has failed; id 0 speaks of the last line that the instrument heard. */
export interface Fault {
  readonly kind: 'fault';
  readonly id: number;
  readonly code: FaultCode;
  readonly text: string;
}
