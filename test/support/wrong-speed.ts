/**
 * Bytes sent at one speed as a receiver set to another hears them: the line is sampled in the middle of each bit of the
 * receiver's own, from the falling edge of a start bit on, 8 data bits, no parity, 1 stop bit. The line is idle (high)
 * after the last byte. A byte whose stop bit is low is passed on all the same, as most drivers do.
 */
export function asHeardAt(bytes: Uint8Array, sentBaud: number, heardBaud: number): Uint8Array {
  const level = (bit: number): number => {
    if (bit < 0 || bit >= bytes.length * 10) return 1;
    const place = bit % 10;
    if (place === 0) return 0;
    return place === 9 ? 1 : ((bytes[Math.floor(bit / 10)] as number) >> (place - 1)) & 1;
  };
  const at = (seconds: number): number => level(Math.floor(seconds * sentBaud));
  const endS = (bytes.length * 10) / sentBaud;
  const stepS = 1 / heardBaud / 16;
  const heard: number[] = [];
  for (let nowS = 0; nowS < endS; nowS += stepS) {
    if (at(nowS) === 1) continue;
    let value = 0;
    for (let bit = 0; bit < 8; bit++) value |= at(nowS + (bit + 1.5) / heardBaud) << bit;
    heard.push(value);
    nowS += 9.5 / heardBaud;
  }
  return Uint8Array.from(heard);
}
