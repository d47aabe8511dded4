/** Why Yellowroom cannot be made ready: one sentence, and the exit code of the command. */
export class Trouble extends Error {
  /**
   * @param {string} message what, where, what to do
   * @param {1 | 3} exit 1: our own sources are at fault; 3: the folder, the disk or the network is
   */
  constructor(message, exit) {
    super(message)
    this.exit = exit
  }
}
