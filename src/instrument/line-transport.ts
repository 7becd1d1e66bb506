/**
 * The one seam between the drivers and the world: something that carries bytes both ways. A serial port, a
 * pseudo-terminal and the simulator all look like this, so a driver cannot tell them apart.
 */
export interface LineTransport {
  /** As the user wrote it, for messages. */
  readonly name: string;
  /**
   * Opens a fresh connection; may be called again after {@link close} or a loss.
   * @throws UserError of kind `instrument`
   */
  open(listener: TransportListener): Promise<void>;
  /**
   * Resolves when the bytes have left the program.
   * @throws UserError of kind `instrument`
   */
  write(text: string): Promise<void>;
  /** Lets go of the connection, whatever its state; never rejects. Nothing is heard afterwards. */
  close(): Promise<void>;
}

/** Whom a transport tells what arrives. */
export interface TransportListener {
  /** Bytes that arrived; they stay as they are until the call returns. */
  bytes(chunk: Uint8Array): void;
  /** The connection was lost, and not by {@link LineTransport.close}. Told once. */
  gone(cause: Error): void;
}
