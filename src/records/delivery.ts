/**
 * Something that a platform delivered, as one process took it. A platform delivers again what it thinks was lost, and
 * not always to the same process.
 */
export type Delivery = {
  /** The same however often it is delivered. */
  readonly id: string;
  /** Made anew each time it is taken, so that one taker may change several things. */
  readonly taker: string;
};

/** Thrown by a change of the records when the delivery it belongs to was taken before; nothing was changed. */
export class DeliveredBefore extends Error {
  override readonly name = 'DeliveredBefore';

  constructor() {
    super('the work of this delivery was taken before');
  }
}
