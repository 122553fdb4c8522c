/**
 * What is wrong: the engine keeps formulas with the tables and names that they meant when it read them. In the calculation that follows on a
 * change it reads them anew, but keeps the old ones for the calculations after that.
 * How it shows: after a table has grown, its new rows count once, and no longer after the next edit.
 */
import type { Injector } from "@univerjs/core";
import { IFormulaCurrentConfigService, IFormulaDependencyGenerator } from "@univerjs/engine-formula";

interface Changes {
  readonly dirtySuperTableMap?: Record<string, Record<string, unknown> | null | undefined>;
  readonly dirtyDefinedNameMap?: Record<string, Record<string, unknown> | null | undefined>;
}

interface Generator {
  dispose(): void;
}

export function forgetFormulasOfChangedTables(injector: Injector): void {
  const generator = injector.get(IFormulaDependencyGenerator) as unknown as Generator;
  const given = injector.get(IFormulaCurrentConfigService) as unknown as { load(config: Changes): void };
  const load = given.load;
  given.load = function (config) {
    const changes = [config.dirtySuperTableMap, config.dirtyDefinedNameMap].flatMap((changed) => Object.values(changed ?? {}));
    if (changes.some((changed) => Object.keys(changed ?? {}).length > 0)) forgetFormulas(generator);
    load.call(this, config);
  };
}

/**
 * Nothing hands out what is kept, and long formulas are kept under a number in which their workbook cannot be seen; ending a generator forgets
 * them all, and this one is at its end from the start.
 */
function forgetFormulas(generator: Generator): void {
  const clear = { clear: () => undefined };
  const ended = { _disposed: true, _dependencyTreeCache: clear, _updateRangeFlattenCache: clear, _dependencyRTreeCacheForAddressFunction: clear };
  (Object.getPrototypeOf(generator) as Generator).dispose.call(ended as unknown as Generator);
}
