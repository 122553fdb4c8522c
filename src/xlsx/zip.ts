/**
 * The container of an .xlsx file (PKWARE's APPNOTE.TXT, the part of it that ISO/IEC 29500-2 allows): its directory, entries unpacked one by one,
 * and a new container in which untouched entries are copied as they are packed.
 */
import { deflateSync, Inflate } from "fflate";

/** Why a container cannot be read; the caller says it in words. */
export class ZipProblem extends Error {
  constructor(readonly kind: "damaged" | "password" | "unusual packing" | "too large" | "the same part twice") {
    super(kind);
  }
}

interface Entry {
  readonly name: string;
  readonly rawName: Uint8Array;
  readonly flags: number;
  readonly method: number;
  /** DOS time and date. */
  readonly time: number;
  readonly crc: number;
  readonly packedSize: number;
  readonly size: number;
  /** Where its local header stands. */
  readonly at: number;
}

const stored = 0;
const deflated = 8;
const encryptedFlag = 0x1;
const sizesFollowFlag = 0x8;
const utf8Flag = 0x800;

/** Bytes that a single part, and all parts that are read together, may have when unpacked. Far above any workbook that this page can show. */
export const mostPartBytes = 256 * 2 ** 20;
export const mostBytes = 512 * 2 ** 20;

export class Zip {
  private readonly entries = new Map<string, Entry>();
  private readonly view: DataView;
  private unpacked = 0;

  constructor(private readonly bytes: Uint8Array) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    try {
      this.readDirectory();
    } catch (error) {
      if (error instanceof RangeError) throw new ZipProblem("damaged");
      throw error;
    }
  }

  /** The names as they are spelled, without a leading slash. */
  get names(): string[] {
    return [...this.entries.values()].map(({ name }) => name);
  }

  /** Names count as equal whatever the case of their letters, as in the standard. */
  has(name: string): boolean {
    return this.entries.has(name.toLowerCase());
  }

  /** The unpacked content; undefined where there is no such entry. */
  read(name: string): Uint8Array | undefined {
    const entry = this.entries.get(name.toLowerCase());
    if (!entry) return undefined;
    if (entry.flags & encryptedFlag) throw new ZipProblem("password");
    if (entry.method !== stored && entry.method !== deflated) throw new ZipProblem("unusual packing");
    this.unpacked += entry.size;
    if (entry.size > mostPartBytes || this.unpacked > mostBytes) throw new ZipProblem("too large");
    const packed = this.packed(entry);
    const content = entry.method === stored ? packed : inflated(packed, entry.size);
    if (content.length !== entry.size || crc32(content) !== entry.crc) throw new ZipProblem("damaged");
    return content;
  }

  /** A container with these contents put in, by name; null takes an entry out. All other entries keep their packed bytes and their order. */
  written(changes: ReadonlyMap<string, Uint8Array | null>): Uint8Array {
    const byKey = new Map([...changes].map(([name, content]) => [name.toLowerCase(), content]));
    const writer = new ZipWriter();
    for (const [key, entry] of this.entries) {
      const content = byKey.get(key);
      if (content === null) continue;
      if (content) writer.add(entry.rawName, entry.flags & utf8Flag, entry.time, content);
      else writer.copy(entry, this.packed(entry));
    }
    for (const [name, content] of changes) if (content && !this.has(name)) writer.add(new TextEncoder().encode(name), utf8Flag, firstDosDay, content);
    return writer.finished();
  }

  private packed(entry: Entry): Uint8Array {
    const { view, bytes } = this;
    if (entry.at + 30 > bytes.length || view.getUint32(entry.at, true) !== localHeader) throw new ZipProblem("damaged");
    const start = entry.at + 30 + view.getUint16(entry.at + 26, true) + view.getUint16(entry.at + 28, true);
    if (start + entry.packedSize > bytes.length) throw new ZipProblem("damaged");
    return bytes.subarray(start, start + entry.packedSize);
  }

  private readDirectory(): void {
    const { view } = this;
    let end = this.bytes.length - 22;
    const earliest = Math.max(0, end - 0xffff);
    while (end >= earliest && view.getUint32(end, true) !== endOfDirectory) end--;
    if (end < earliest) throw new ZipProblem("damaged");
    let count = view.getUint16(end + 10, true);
    let at = view.getUint32(end + 16, true);
    if (at === 0xffffffff || count === 0xffff) {
      const large = this.large(end - 20 + 8);
      count = this.large(large + 32);
      at = this.large(large + 48);
    }
    for (let index = 0; index < count; index++) at = this.readEntry(at);
  }

  private readEntry(at: number): number {
    const { view, bytes } = this;
    if (view.getUint32(at, true) !== directoryHeader) throw new ZipProblem("damaged");
    const nameLength = view.getUint16(at + 28, true);
    const extraStart = at + 46 + nameLength;
    const extraEnd = extraStart + view.getUint16(at + 30, true);
    const sizes = [view.getUint32(at + 24, true), view.getUint32(at + 20, true), view.getUint32(at + 42, true)];
    this.readLargeSizes(sizes, extraStart, extraEnd);
    const rawName = bytes.subarray(at + 46, extraStart);
    const name = new TextDecoder().decode(rawName).replaceAll("\\", "/").replace(/^\/+/, "");
    if (!name.endsWith("/")) {
      const key = name.toLowerCase();
      if (this.entries.has(key)) throw new ZipProblem("the same part twice");
      this.entries.set(key, {
        name,
        rawName,
        flags: view.getUint16(at + 8, true),
        method: view.getUint16(at + 10, true),
        time: view.getUint32(at + 12, true),
        crc: view.getUint32(at + 16, true),
        size: sizes[0]!,
        packedSize: sizes[1]!,
        at: sizes[2]!,
      });
    }
    return extraEnd + view.getUint16(at + 32, true);
  }

  /** Sizes beyond 4 GB, or written as if they were, stand in an extra field in this order. */
  private readLargeSizes(sizes: number[], from: number, to: number): void {
    if (!sizes.includes(0xffffffff)) return;
    for (let field = from; field + 4 <= to; field += 4 + this.view.getUint16(field + 2, true)) {
      if (this.view.getUint16(field, true) !== 1) continue;
      let place = field + 4;
      sizes.forEach((size, index) => {
        if (size !== 0xffffffff) return;
        sizes[index] = this.large(place);
        place += 8;
      });
    }
  }

  private large(at: number): number {
    const value = this.view.getBigUint64(at, true);
    if (value > Number.MAX_SAFE_INTEGER) throw new ZipProblem("damaged");
    return Number(value);
  }
}

const localHeader = 0x04034b50;
const directoryHeader = 0x02014b50;
const endOfDirectory = 0x06054b50;
/** The first day that a DOS date can say. */
const firstDosDay = 0x00210000;

class ZipWriter {
  private readonly pieces: Uint8Array[] = [];
  private readonly directory: Uint8Array[] = [];
  private length = 0;

  add(rawName: Uint8Array, flags: number, time: number, content: Uint8Array): void {
    const packed = deflateSync(content);
    this.put(rawName, { flags, method: deflated, time, crc: crc32(content), size: content.length }, packed);
  }

  copy(entry: Entry, packed: Uint8Array): void {
    this.put(entry.rawName, { ...entry, flags: entry.flags & ~sizesFollowFlag }, packed);
  }

  finished(): Uint8Array {
    const directoryLength = this.directory.reduce((sum, { length }) => sum + length, 0);
    const end = new DataView(new ArrayBuffer(22));
    const count = this.directory.length / 2;
    end.setUint32(0, endOfDirectory, true);
    end.setUint16(8, count, true);
    end.setUint16(10, count, true);
    end.setUint32(12, directoryLength, true);
    end.setUint32(16, this.length, true);
    return joinedBytes([...this.pieces, ...this.directory, new Uint8Array(end.buffer)]);
  }

  private put(rawName: Uint8Array, about: Pick<Entry, "flags" | "method" | "time" | "crc" | "size">, packed: Uint8Array): void {
    const local = new DataView(new ArrayBuffer(30));
    local.setUint32(0, localHeader, true);
    local.setUint16(4, 20, true);
    local.setUint16(6, about.flags, true);
    local.setUint16(8, about.method, true);
    local.setUint32(10, about.time, true);
    local.setUint32(14, about.crc, true);
    local.setUint32(18, packed.length, true);
    local.setUint32(22, about.size, true);
    local.setUint16(26, rawName.length, true);
    const central = new DataView(new ArrayBuffer(46));
    central.setUint32(0, directoryHeader, true);
    central.setUint16(4, 20, true);
    new Uint8Array(central.buffer).set(new Uint8Array(local.buffer).subarray(4, 28), 6);
    central.setUint32(42, this.length, true);
    this.pieces.push(new Uint8Array(local.buffer), rawName, packed);
    this.directory.push(new Uint8Array(central.buffer), rawName);
    this.length += 30 + rawName.length + packed.length;
  }
}

/** Packed bytes that are unpacked at a time; deflate makes at most some 1,000 times as much of them. */
const pieceLength = 65_536;

/** Stops at the stated size, so that a part that unpacks to more than it says does no harm. */
function inflated(packed: Uint8Array, size: number): Uint8Array {
  const content = new Uint8Array(size);
  let length = 0;
  const stream = new Inflate((piece) => {
    if (length + piece.length > size) throw new ZipProblem("damaged");
    content.set(piece, length);
    length += piece.length;
  });
  try {
    for (let at = 0; at < packed.length || at === 0; at += pieceLength) stream.push(packed.subarray(at, at + pieceLength), at + pieceLength >= packed.length);
  } catch (error) {
    throw error instanceof ZipProblem ? error : new ZipProblem("damaged");
  }
  return content.subarray(0, length);
}

const crcTable = Uint32Array.from({ length: 256 }, (_, index) => {
  let value = index;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

function crc32(bytes: Uint8Array): number {
  let crc = ~0;
  for (const byte of bytes) crc = crcTable[(crc ^ byte) & 255]! ^ (crc >>> 8);
  return ~crc >>> 0;
}

function joinedBytes(pieces: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}
