// Hands what the microphone takes to the page, as it is, in pieces of about a hundredth of a second.
class Ear extends AudioWorkletProcessor {
  constructor() {
    super();
    this.piece = new Float32Array(512);
    this.filled = 0;
  }

  process([input]) {
    const channel = input[0];
    if (!channel) return true;
    this.piece.set(channel, this.filled);
    this.filled += channel.length;
    if (this.filled >= this.piece.length) {
      this.port.postMessage(this.piece, [this.piece.buffer]);
      this.piece = new Float32Array(512);
      this.filled = 0;
    }
    return true;
  }
}

registerProcessor("ear", Ear);
