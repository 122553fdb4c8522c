/**
 * The page around the add-in's: it plays Excel on the web to Microsoft's own office.js, which runs unmodified in the frame.
 * The messages are what that version of office.js sends and expects; they are not documented, which is why its version is pinned.
 */
import { readArea, writeArea } from "./address.ts";
import { Book, CellError, type CellValue, type Settings, type SheetChart } from "./book.ts";
import { Calculator, type Matrix, type Metadata } from "./calculator.ts";
import { Workbook } from "./excel-api.ts";
import type { HostOptions } from "./host-options.ts";
import { ApiError, RichApi, type Answer, type Batch } from "./rich-api.ts";

interface Message {
  readonly _messageType: number;
  readonly _actionName: string;
  readonly _conversationId: string;
  readonly _correlationId: number;
  readonly _data: { DdaMethod?: { DispatchId: number }; ArrayData?: unknown[] };
}

/** The Rich API request among office.js's methods. */
const processQuery = 93;
/** Office.js sets it in the request of a batch that is to wait while a cell is being edited. */
const delayForCellEdit = 64;
/** Where a request's array has its flags and its body. */
const requestFlags = 6;
const requestBody = 4;
/** Office.js's answer code for a batch refused because a cell is being edited. */
const inCellEditMode = 5004;
/** Flag of an invocation whose values may be errors. */
const errorsAllowedFlag = 4;

/** Messages that answer nothing. */
const toConversation = { _messageType: 1, _responseType: 1, _conversationId: "conversation", _correlationId: -1 };
/** How office.js tells events from calls, and a changed cell from other events. */
const eventCategory = 65536;
const worksheetChanged = 10;

const failureCodes: Readonly<Record<number, string>> = { 1: "#N/A", 5: "#DIV/0!", 6: "#NUM!", 7: "#VALUE!", 8: "#NULL!" };
/** Excel shows the words of these errors only. */
const withWords = new Set(["#VALUE!", "#N/A"]);

const options = JSON.parse(document.getElementById("options")!.textContent!) as HostOptions;
const frame = document.querySelector("iframe")!;
const book = new Book();
for (const [key, value] of Object.entries(options.properties)) book.properties.set(key.toLowerCase(), { key, value });

/** "Range.values" and the like, in the order of their use. */
const used: string[] = [];
const held = new Set(options.held);
const failing = new Map(Object.entries(options.failing));
let editing = false;
let wake: (() => void)[] = [];

function wakeAll(): void {
  const sleepers = wake;
  wake = [];
  for (const resume of sleepers) resume();
}

const pending = new Map<number, (result: Matrix) => void>();
let nextInvocation = 1;
let calculator: Calculator;
let richApi: RichApi;

function checkApiSet(apiName: string, member: string): void {
  const mark = options.apiSets[`${apiName}.${member}`] ?? options.apiSets[apiName];
  const [, set, version] = /^(\w+) (\d+\.\d+)/.exec(mark ?? "") ?? [];
  const available = options.addIn.sets[set ?? ""];
  if (version === undefined || available === undefined || later(version, available)) {
    throw new ApiError("ApiNotFound", `${apiName}.${member} came with ${mark ?? "no requirement set"}; the manifest asks for ${set} ${available}.`);
  }
}

/** 1.10 is later than 1.9. */
function later(version: string, than: string): boolean {
  const [major, minor] = version.split(".").map(Number);
  const [otherMajor, otherMinor] = than.split(".").map(Number);
  return major! > otherMajor! || (major === otherMajor && minor! > otherMinor!);
}

function send(name: string, data: unknown, rest: object): void {
  const message = { _actionName: name, _origin: location.href, _data: data, _errorCode: 0, _serializerVersion: 1, ...rest };
  frame.contentWindow!.postMessage(JSON.stringify(message), location.origin);
}

function reply(to: Message, data: unknown): void {
  send(to._actionName, data, { _messageType: 1, _responseType: 0, _conversationId: to._conversationId, _correlationId: to._correlationId });
}

async function answer(message: Message): Promise<void> {
  if (message._actionName === "ContextActivationManager_getAppContextAsync") return reply(message, appContext());
  if (message._actionName !== "executeMethod" || message._data.DdaMethod?.DispatchId !== processQuery) return reply(message, { Error: 0, Version: 1 });
  const request = message._data.ArrayData!;
  const batch = JSON.parse(String(request[requestBody])) as Batch;
  while (waits(batch, Number(request[requestFlags]))) await new Promise<void>((resolve) => wake.push(resolve));
  if (editing) return reply(message, { Error: inCellEditMode, Version: 1 });
  const result: Answer = richApi.run(batch);
  reply(message, { Error: 0, Version: 1, Data: [0, [], JSON.stringify(result)] });
}

function waits(batch: Batch, flags: number): boolean {
  if (editing && (flags & delayForCellEdit) !== 0) return true;
  const names = RichApi.names(batch);
  return [...held].some((member) => names.includes(member.split(".")[1]!));
}

function appContext(): object {
  // Office.js itself refuses part of what these sets do not hold.
  const sets = { ...options.addIn.sets, DelayForCellEdit: "1.1" };
  return {
    _id: "add-in",
    _appName: 16,
    _appVersion: "16.00",
    _appUILocale: "en-US",
    _dataLocale: "en-US",
    _docUrl: `${location.origin}/book.xlsx`,
    _clientMode: 0,
    _settings: [],
    _reason: 1,
    _osfControlType: 1,
    _appInstanceId: "add-in",
    _correlationId: "",
    _hostFullVersion: "16.0.0.0",
    _requirementMatrix: JSON.stringify(sets),
  };
}

/** Calls a function of the add-in through Microsoft's runtime. */
function call(id: string, given: unknown[], address: string, errorsAllowed: boolean): Promise<Matrix> {
  const invocation = nextInvocation++;
  const entry = [1, 1000, "", JSON.stringify([invocation, id, given, address, errorsAllowed ? errorsAllowedFlag : 0]), 0, false];
  send("richApiMessage", { ArrayData: [entry] }, toConversation);
  return new Promise((resolve) => pending.set(invocation, resolve));
}

interface InvocationResult {
  readonly id: number;
  readonly failed?: boolean;
  readonly value: unknown;
  readonly errorCode?: number;
}

/** The service that Microsoft's custom functions runtime reports to and hands its results to. */
const customFunctions = {
  _SetOsfControlContainerReadyForCustomFunctions: () => undefined,
  SetInvocationResults: (results: readonly InvocationResult[]) => results.forEach(receive),
};

function receive({ id, failed, value, errorCode }: InvocationResult): void {
  const resolve = pending.get(id);
  pending.delete(id);
  if (failed) resolve?.([[cellError(failureCodes[errorCode ?? 0] ?? "#VALUE!", String(value))]]);
  else resolve?.(Array.isArray(value) ? (value as unknown[][]).map((row) => row.map(received)) : [[received(value)]]);
}

/** A result as the cell shows it. JSON has turned NaN, Infinity and undefined into null, which Excel shows as 0. */
function received(value: unknown): CellValue {
  if (value === null) return 0;
  if (typeof value !== "object") return value as CellValue;
  const { type, basicValue, message } = value as { type?: string; basicValue?: CellValue; message?: string };
  return type === "Error" ? cellError(String(basicValue), message) : basicValue!;
}

function cellError(code: string, message: string | undefined): CellError {
  return message && withWords.has(code) ? new CellError(code, message) : new CellError(code);
}

/** What a test does at the keyboard of this Excel, and sees. */
const excel = {
  type(sheet: string, address: string, typed: unknown[][]): Promise<void> {
    const area = readArea(address)!;
    calculator.type(book.sheet(sheet)!, { ...area, rows: typed.length, columns: typed[0]!.length }, typed);
    return calculator.settled();
  },
  /** Like type, without waiting for the results. */
  start(sheet: string, address: string, typed: unknown[][]): void {
    void excel.type(sheet, address, typed);
  },
  settled: () => calculator.settled(),
  values(sheet: string, address: string): unknown[][] {
    return excel.look(sheet, address, (value) => (value instanceof CellError ? value.code : (value ?? "")));
  },
  messages(sheet: string, address: string): unknown[][] {
    return excel.look(sheet, address, (value) => (value instanceof CellError ? (value.message ?? "") : ""));
  },
  look(sheet: string, address: string, see: (value: CellValue | undefined) => unknown): unknown[][] {
    const area = readArea(address)!;
    return Array.from({ length: area.rows }, (_, row) =>
      Array.from({ length: area.columns }, (_, column) => see(book.sheet(sheet)!.at(area.row + row, area.column + column)?.value)),
    );
  },
  /** A sheet as it was written: what arrived, whatever it comes to. */
  sheet(name: string): WrittenSheet | undefined {
    const sheet = book.sheet(name);
    if (!sheet) return undefined;
    return {
      cells: Object.fromEntries(
        [...sheet.cells]
          .filter(([, cell]) => cell.spilledFrom === undefined)
          .map(([key, { formula, value }]) => [key, formula === undefined ? { value: value as string | number | boolean } : { formula }]),
      ),
      tables: book.tables.filter((table) => table.sheet === sheet).map((table) => ({ name: table.name, area: writeArea(table.area) })),
      names: book.names.filter((item) => item.sheet === sheet).map((item) => ({ name: item.name, area: writeArea(item.area) })),
      charts: sheet.charts.map(({ settings, series }) => ({ settings, series })),
      settings: Object.fromEntries(sheet.settings),
      page: sheet.page,
      frozenRows: sheet.frozenRows,
      merged: sheet.merged,
      hiddenColumns: [...sheet.hiddenColumns],
      columnWidths: [...sheet.columnWidths.values()],
    };
  },
  visibility: (name: string) => book.sheet(name)?.visibility,
  sheets: () => book.sheets.map(({ name }) => name),
  names: () => book.names.map(({ name }) => name),
  active: () => book.active?.name,
  addSheet: (name: string): void => void book.addSheet(name),
  properties: () => Object.fromEntries([...book.properties.values()].map(({ key, value }) => [key, value])),
  used: () => [...used],
  release(member: string): void {
    held.delete(member);
    wakeAll();
  },
  fail(member: string, code: string): void {
    failing.set(member, code);
  },
  recover(member: string): void {
    failing.delete(member);
  },
  protect(name: string): void {
    book.sheets.find((sheet) => sheet.name === name)!.isProtected = true;
  },
  /** Somebody else who has the workbook open types into a cell, of a sheet that is added where it is none yet; a custom property may arrive with it. */
  colleague(sheet: string, address: string, typed: unknown, property?: readonly [key: string, value: unknown]): void {
    if (property) book.properties.set(property[0].toLowerCase(), { key: property[0], value: property[1] });
    const to = book.sheet(sheet) ?? book.addSheet(sheet);
    calculator.type(to, readArea(address)!, [[typed]]);
    if (!book.reportsChanges) return;
    const change = { type: "WorksheetChanged", changeType: "RangeEdited", source: "Remote", worksheetId: to.id, address };
    send("richApiMessage", { ArrayData: [[eventCategory, worksheetChanged, "Workbook", JSON.stringify(change), 0, false]] }, toConversation);
  },
  edit(on: boolean): void {
    editing = on;
    wakeAll();
  },
};

export interface WrittenSheet {
  readonly cells: Readonly<Record<string, { readonly value?: string | number | boolean; readonly formula?: string }>>;
  readonly tables: readonly { readonly name: string; readonly area: string }[];
  readonly names: readonly { readonly name: string; readonly area: string }[];
  readonly charts: readonly Pick<SheetChart, "settings" | "series">[];
  readonly settings: Readonly<Record<string, Settings>>;
  readonly page: Settings;
  readonly frozenRows: number;
  readonly merged: readonly string[];
  /** Counted from 0. */
  readonly hiddenColumns: readonly number[];
  readonly columnWidths: readonly number[];
}

export type ExcelKeyboard = typeof excel;

declare global {
  interface Window {
    excel: ExcelKeyboard;
  }
}

async function start(): Promise<void> {
  const metadata = (await (await fetch(options.addIn.metadata)).json()) as Metadata;
  calculator = new Calculator(book, { namespace: options.addIn.namespace, metadata, blank: options.blank, call });
  richApi = new RichApi({
    root: new Workbook({ book, calculator }),
    services: {
      "Microsoft.ExcelServices.CustomFunctions": customFunctions,
      "Microsoft.InternalService.AddinInternalService": { NotifyActionHandlerReady: () => undefined },
    },
    check: checkApiSet,
    onUse: (apiName, member) => {
      used.push(`${apiName}.${member}`);
      const code = failing.get(`${apiName}.${member}`);
      if (code !== undefined) throw new ApiError(code, "The operation failed on purpose.");
    },
  });
  addEventListener("message", ({ data, source }) => {
    if (source !== frame.contentWindow || typeof data !== "string") return;
    const message = JSON.parse(data) as Message;
    if (message._messageType === 0) void answer(message);
  });
  window.excel = excel;
  // 1 says that functions and pane share a page, 2 that there are custom functions.
  const host = encodeURIComponent("Excel$Web$16.00$en-US$$$disableLogging$3");
  frame.src = `${options.addIn.page}?_host_Info=${host}#&_xdm_Info=${["conversation", "add-in", location.href].join("|")}`;
}

void start();
