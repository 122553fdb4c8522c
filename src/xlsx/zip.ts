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

/** A file that is in memory, or lies on a disk and is read where it is needed. */
export interface ByteSource {
  readonly length: number;
  /** Throws a RangeError beyond its ends. */
  read(from: number, to: number): Uint8Array;
}

export function inMemory(bytes: Uint8Array): ByteSource {
  return {
    length: bytes.length,
    read(from, to) {
      if (from < 0 || to > bytes.length) throw new RangeError();
      // A copy without changes is the file itself.
      return from === 0 && to === bytes.length ? bytes : bytes.subarray(from, to);
    },
  };
}

/** Bytes that may be unpacked and held. */
export interface ZipLimits {
  readonly part: number;
  /** All parts that are read whole, together. */
  readonly all: number;
}

/** Far above any workbook that the page can show. */
const forThePage: ZipLimits = { part: 256 * 2 ** 20, all: 512 * 2 ** 20 };

export class Zip {
  private readonly entries = new Map<string, Entry>();
  private unpacked = 0;

  constructor(
    private readonly source: ByteSource,
    private readonly limits = forThePage,
  ) {
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
    const entry = this.readable(name);
    if (!entry) return undefined;
    this.unpacked += entry.size;
    if (entry.size > this.limits.part || this.unpacked > this.limits.all) throw new ZipProblem("too large");
    const content = new Uint8Array(entry.size);
    let length = 0;
    for (const piece of this.piecesOf(entry)) {
      content.set(piece, length);
      length += piece.length;
    }
    return content;
  }

  /** The unpacked content piece by piece, of an entry of any size; nothing where there is no such entry. What is wrong with it may show only at its end. */
  *pieces(name: string): Generator<Uint8Array> {
    const entry = this.readable(name);
    if (entry) yield* this.piecesOf(entry);
  }

  private readable(name: string): Entry | undefined {
    const entry = this.entries.get(name.toLowerCase());
    if (!entry) return undefined;
    if (entry.flags & encryptedFlag) throw new ZipProblem("password");
    if (entry.method !== stored && entry.method !== deflated) throw new ZipProblem("unusual packing");
    return entry;
  }

  /** Stops at the stated size, so that a part that unpacks to more than it says does no harm. */
  private *piecesOf(entry: Entry): Generator<Uint8Array> {
    const { size, crc } = entry;
    let [length, sum] = [0, ~0];
    for (const piece of entry.method === stored ? this.packedPieces(entry) : inflated(this.packedPieces(entry))) {
      length += piece.length;
      if (length > size) throw new ZipProblem("damaged");
      sum = crcOf(piece, sum);
      yield piece;
    }
    if (length !== size || ~sum >>> 0 !== crc) throw new ZipProblem("damaged");
  }

  private *packedPieces(entry: Entry): Generator<Uint8Array> {
    const from = this.startOf(entry);
    for (let at = 0; at < entry.packedSize; at += pieceLength) yield this.source.read(from + at, from + Math.min(at + pieceLength, entry.packedSize));
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
    const start = this.startOf(entry);
    return this.source.read(start, start + entry.packedSize);
  }

  private startOf(entry: Entry): number {
    if (entry.at + 30 > this.source.length) throw new ZipProblem("damaged");
    const header = this.view(entry.at, 30);
    if (header.getUint32(0, true) !== localHeader) throw new ZipProblem("damaged");
    const start = entry.at + 30 + header.getUint16(26, true) + header.getUint16(28, true);
    if (start + entry.packedSize > this.source.length) throw new ZipProblem("damaged");
    return start;
  }

  private view(from: number, length: number): DataView {
    const { buffer, byteOffset } = this.source.read(from, from + length);
    return new DataView(buffer, byteOffset, length);
  }

  private readDirectory(): void {
    const last = this.source.length - 22;
    const earliest = Math.max(0, last - 0xffff);
    const tail = this.view(earliest, this.source.length - earliest);
    let end = last - earliest;
    while (end >= 0 && tail.getUint32(end, true) !== endOfDirectory) end--;
    if (end < 0) throw new ZipProblem("damaged");
    let count = tail.getUint16(end + 10, true);
    let at = tail.getUint32(end + 16, true);
    if (at === 0xffffffff || count === 0xffff) {
      const large = this.large(earliest + end - 20 + 8);
      count = this.large(large + 32);
      at = this.large(large + 48);
    }
    for (let index = 0; index < count; index++) at = this.readEntry(at);
  }

  private readEntry(at: number): number {
    const head = this.view(at, 46);
    if (head.getUint32(0, true) !== directoryHeader) throw new ZipProblem("damaged");
    const nameLength = head.getUint16(28, true);
    const extraStart = at + 46 + nameLength;
    const extraEnd = extraStart + head.getUint16(30, true);
    const sizes = [head.getUint32(24, true), head.getUint32(20, true), head.getUint32(42, true)];
    this.readLargeSizes(sizes, extraStart, extraEnd);
    const rawName = this.source.read(at + 46, extraStart);
    const name = new TextDecoder().decode(rawName).replaceAll("\\", "/").replace(/^\/+/, "");
    if (!name.endsWith("/")) {
      const key = name.toLowerCase();
      if (this.entries.has(key)) throw new ZipProblem("the same part twice");
      this.entries.set(key, {
        name,
        rawName,
        flags: head.getUint16(8, true),
        method: head.getUint16(10, true),
        time: head.getUint32(12, true),
        crc: head.getUint32(16, true),
        size: sizes[0]!,
        packedSize: sizes[1]!,
        at: sizes[2]!,
      });
    }
    return extraEnd + head.getUint16(32, true);
  }

  /** Sizes beyond 4 GB, or written as if they were, stand in an extra field in this order. */
  private readLargeSizes(sizes: number[], from: number, to: number): void {
    if (!sizes.includes(0xffffffff)) return;
    for (let field = from; field + 4 <= to; field += 4 + this.view(field, 4).getUint16(2, true)) {
      if (this.view(field, 4).getUint16(0, true) !== 1) continue;
      let place = field + 4;
      sizes.forEach((size, index) => {
        if (size !== 0xffffffff) return;
        sizes[index] = this.large(place);
        place += 8;
      });
    }
  }

  private large(at: number): number {
    const value = this.view(at, 8).getBigUint64(0, true);
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
const pieceLength = 4096;

function* inflated(packed: Iterable<Uint8Array>): Generator<Uint8Array> {
  let unpacked: Uint8Array[] = [];
  const stream = new Inflate((piece) => unpacked.push(piece));
  const push = (piece: Uint8Array, last: boolean): void => {
    try {
      stream.push(piece, last);
    } catch {
      throw new ZipProblem("damaged");
    }
  };
  for (const piece of packed) {
    push(piece, false);
    yield* unpacked;
    unpacked = [];
  }
  push(new Uint8Array(), true);
  yield* unpacked;
}

const crcTable = Uint32Array.from({ length: 256 }, (_, index) => {
  let value = index;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

function crc32(bytes: Uint8Array): number {
  return ~crcOf(bytes, ~0) >>> 0;
}

/** Of further bytes, from that of those before. */
function crcOf(bytes: Uint8Array, before: number): number {
  let crc = before;
  for (let at = 0; at < bytes.length; at++) crc = crcTable[(crc ^ bytes[at]!) & 255]! ^ (crc >>> 8);
  return crc;
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
