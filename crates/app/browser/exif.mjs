// Puts an Exif segment into a JPEG, as a camera would (Exif 2.32, JEITA CP-3451): orientation, time, position.
function tiff() {
  const out = Buffer.alloc(400);
  let free = 0;
  out.write("II", 0, "ascii");
  out.writeUInt16LE(42, 2);
  out.writeUInt32LE(8, 4);
  const directory = (at, entries, data) => {
    out.writeUInt16LE(entries.length, at);
    free = data;
    entries.forEach(([tag, type, count, value], n) => {
      const entry = at + 2 + n * 12;
      out.writeUInt16LE(tag, entry);
      out.writeUInt16LE(type, entry + 2);
      out.writeUInt32LE(count, entry + 4);
      if (Buffer.isBuffer(value) && value.length > 4) {
        out.writeUInt32LE(free, entry + 8);
        value.copy(out, free);
        free += value.length;
      } else if (Buffer.isBuffer(value)) {
        value.copy(out, entry + 8);
      } else if (type === 3) {
        out.writeUInt16LE(value, entry + 8);
      } else {
        out.writeUInt32LE(value, entry + 8);
      }
    });
  };
  const rational = (...pairs) => {
    const bytes = Buffer.alloc(pairs.length * 8);
    pairs.forEach(([a, b], n) => {
      bytes.writeUInt32LE(a, n * 8);
      bytes.writeUInt32LE(b, n * 8 + 4);
    });
    return bytes;
  };
  directory(8, [[0x0112, 3, 1, 6], [0x8769, 4, 1, 60], [0x8825, 4, 1, 120]], 50);
  directory(60, [[0x9003, 2, 20, Buffer.from("2026:06:03 10:11:12\0", "ascii")]], 84);
  directory(120, [[1, 2, 2, Buffer.from("N\0")], [2, 5, 3, rational([51, 1], [30, 1], [1234, 100])], [3, 2, 2, Buffer.from("W\0")], [4, 5, 3, rational([4, 1], [15, 1], [5678, 100])]], 200);
  return out;
}

export function withExif(jpeg) {
  const body = Buffer.concat([Buffer.from("Exif\0\0", "binary"), tiff()]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}
