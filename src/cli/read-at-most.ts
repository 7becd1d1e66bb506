/**
 * The bytes of a stream up to a limit and one byte more, by which the reader knows that there would be more. Whatever
 * never ends, such as a pipe or a device, is so read in bounded time and memory.
 */
export async function readAtMost(stream: AsyncIterable<Uint8Array>, most: number): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of stream) {
    chunks.push(chunk);
    length += chunk.length;
    if (length > most) break;
  }
  return Buffer.concat(chunks).subarray(0, most + 1);
}
