/**
 * Answers the batches that Excel's API sends: a list of object paths and of actions on them.
 * The objects are instances of ApiObject, whose members have the names of Excel's API.
 */

/** An object of Excel's API. Members that the stand-in does not model are refused, and so are those outside the manifest's requirement sets. */
export abstract class ApiObject {
  /** The class in Excel's API: "Range". */
  abstract readonly apiName: string;
  /** What identifies it among its kind, where Excel sends that along: a worksheet's id, a property's key. */
  identity(): Record<string, unknown> {
    return {};
  }
}

/** A collection; its items are sent one by one. */
export abstract class ApiCollection<Item extends ApiObject> extends ApiObject {
  abstract readonly items: readonly Item[];
  abstract getItem(key: unknown): Item;
}

/** An error as Excel's API reports it. */
export class ApiError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

interface ArgumentInfo {
  readonly Arguments?: unknown[];
  readonly ReferencedObjectPathIds?: (number | null)[];
}

interface ObjectPath {
  readonly Id: number;
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: ArgumentInfo;
}

interface Action {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: ArgumentInfo;
  readonly QueryInfo?: { readonly Select?: string[]; readonly Expand?: string[] };
}

export interface Batch {
  readonly Actions: Action[];
  readonly ObjectPaths: Record<string, ObjectPath>;
}

export interface Answer {
  readonly Results: { ActionId: number; Value: unknown }[];
  readonly Error?: { Code: string; Message: string; ActionIndex: number; Location: string };
}

const pathType = { root: 1, service: 2, method: 3, property: 4, indexer: 5, reference: 6, nullObject: 7 };
const actionType = { instantiate: 1, query: 2, method: 3, setProperty: 4, trace: 5 };

export interface RichApiOptions {
  readonly root: ApiObject;
  /** Objects that a batch can start from besides the root, by their server name. */
  readonly services: Readonly<Record<string, object>>;
  /** Throws where the member is outside the manifest's requirement sets. */
  readonly check: (apiName: string, member: string) => void;
  /** Sees every member that a batch uses; may throw to make it fail. */
  readonly onUse: (apiName: string, member: string) => void;
}

/** Members of the protocol itself, which are part of no requirement set. */
const protocolMembers = new Set(["_KeepReference", "_RemoveReference", "_ReferenceId"]);

/** Office.js sends a few properties under names other than those of the API. */
const serverNames: Readonly<Record<string, string>> = { "Worksheet.gridlines": "showGridlines" };

export class RichApi {
  private readonly kept = new Map<string, ApiObject>();
  private readonly referenceOf = new Map<ApiObject, string>();
  private nextReference = 1;

  constructor(private readonly options: RichApiOptions) {}

  /** The members that a batch names, as "Range.values"; for holding a batch back before it runs. */
  static names(batch: Batch): string[] {
    return [...batch.Actions.map(({ Name }) => Name), ...Object.values(batch.ObjectPaths).map(({ Name }) => Name)].filter(Boolean).map(camel);
  }

  run(batch: Batch): Answer {
    const objects = new Map<number, ApiObject | null>();
    const object = (id: number): ApiObject | null => {
      if (!objects.has(id)) objects.set(id, this.resolve(batch.ObjectPaths[id]!, object));
      return objects.get(id)!;
    };
    const results: Answer["Results"] = [];
    for (const [index, action] of batch.Actions.entries()) {
      try {
        results.push({ ActionId: action.Id, Value: this.act(action, object) ?? null });
      } catch (error) {
        const Code = error instanceof ApiError ? error.code : "GeneralException";
        const Message = error instanceof Error ? error.message : String(error);
        return { Results: results, Error: { Code, Message, ActionIndex: index, Location: action.Name } };
      }
    }
    return { Results: results };
  }

  private resolve(path: ObjectPath, object: (id: number) => ApiObject | null): ApiObject | null {
    const parent = path.ParentObjectPathId === undefined ? null : object(path.ParentObjectPathId);
    switch (path.ObjectPathType) {
      case pathType.root:
        return this.options.root;
      case pathType.service: {
        const service = this.options.services[path.Name];
        if (!service) throw new ApiError("ApiNotFound", `The stand-in has no service ${path.Name}.`);
        return service as ApiObject;
      }
      case pathType.method:
        return parent && (this.call(parent, path.Name, path.ArgumentInfo, object) as ApiObject | null);
      case pathType.property:
        return parent && (this.get(parent, camel(path.Name)) as ApiObject | null);
      case pathType.indexer:
        return parent && (this.call(parent, "GetItem", path.ArgumentInfo, object) as ApiObject | null);
      case pathType.reference: {
        const kept = this.kept.get(path.Name);
        if (!kept) throw new ApiError("InvalidReference", "This reference is not valid for the current operation.");
        return kept;
      }
      case pathType.nullObject:
        return null;
      default:
        throw new ApiError("ApiNotFound", `The stand-in does not know object paths of type ${path.ObjectPathType}.`);
    }
  }

  private act(action: Action, object: (id: number) => ApiObject | null): unknown {
    if (action.ActionType === actionType.trace) return null;
    const target = object(action.ObjectPathId);
    switch (action.ActionType) {
      case actionType.instantiate:
        return target && this.identityOf(target);
      case actionType.query:
        return target && this.query(target, action.QueryInfo?.Select ?? [], action.QueryInfo?.Expand ?? []);
      case actionType.method:
        return target && this.call(target, action.Name, action.ArgumentInfo, object);
      case actionType.setProperty:
        if (target) this.set(target, camel(action.Name), action.ArgumentInfo!.Arguments![0]);
        return null;
      default:
        throw new ApiError("ApiNotFound", `The stand-in does not know actions of type ${action.ActionType}.`);
    }
  }

  private call(target: ApiObject, name: string, info: ArgumentInfo | undefined, object: (id: number) => ApiObject | null): unknown {
    const references = info?.ReferencedObjectPathIds ?? [];
    const given = (info?.Arguments ?? []).map((value, index) => (references[index] ? object(references[index]) : value));
    if (name === "_KeepReference") return this.keep(target);
    if (name === "_RemoveReference") return this.release(String(given[0]));
    const member = target instanceof ApiObject ? camel(name) : name;
    this.use(target, member);
    const method = (target as unknown as Record<string, unknown>)[member];
    if (typeof method !== "function") throw missing(target, member);
    return (method as (...values: unknown[]) => unknown).apply(target, given);
  }

  private get(target: ApiObject, member: string): unknown {
    this.use(target, member);
    if (!(member in target)) throw missing(target, member);
    return (target as unknown as Record<string, unknown>)[member];
  }

  private set(target: ApiObject, sent: string, value: unknown): void {
    const member = serverNames[`${target.apiName}.${sent}`] ?? sent;
    this.use(target, member);
    if (!(member in target)) throw missing(target, member);
    (target as unknown as Record<string, unknown>)[member] = value;
  }

  private use(target: ApiObject, member: string): void {
    if (!(target instanceof ApiObject) || protocolMembers.has(member)) return;
    this.options.check(target.apiName, member);
    this.options.onUse(target.apiName, member);
  }

  private query(target: ApiObject, select: readonly string[], expand: readonly string[]): Record<string, unknown> {
    const paths = [...select, ...expand];
    if (target instanceof ApiCollection) {
      const ofItems = paths.filter((path) => path.toLowerCase() !== "items").map((path) => path.replace(/^items\//i, ""));
      this.use(target, "items");
      return { _Items: target.items.map((item) => this.query(item as ApiObject, ofItems, [])) };
    }
    if (paths.length === 0) throw new ApiError("InvalidArgument", `Say which properties of ${target.apiName} to load.`);
    const answer = this.identityOf(target);
    for (const path of paths) {
      const [first, ...rest] = path.split("/");
      if (first === "_ReferenceId") continue; // part of the identity
      const value = this.get(target, camel(first!));
      if (value instanceof ApiObject) {
        answer[pascal(first!)] = { ...(answer[pascal(first!)] as object | undefined), ...this.query(value, rest.length > 0 ? [rest.join("/")] : [], []) };
      } else answer[pascal(first!)] = value;
    }
    return answer;
  }

  private identityOf(target: ApiObject): Record<string, unknown> {
    const reference = this.referenceOf.get(target);
    const identity = target instanceof ApiObject ? target.identity() : {};
    return reference === undefined ? { ...identity } : { ...identity, _ReferenceId: reference };
  }

  private keep(target: ApiObject): null {
    if (!this.referenceOf.has(target)) {
      const reference = `kept${this.nextReference++}`;
      this.kept.set(reference, target);
      this.referenceOf.set(target, reference);
    }
    return null;
  }

  private release(reference: string): null {
    const target = this.kept.get(reference);
    if (target) this.referenceOf.delete(target);
    this.kept.delete(reference);
    return null;
  }
}

function missing(target: ApiObject, member: string): ApiError {
  return new ApiError("ApiNotFound", `The stand-in does not model ${target.apiName ?? target.constructor.name}.${member}.`);
}

function camel(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1);
}

function pascal(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}
