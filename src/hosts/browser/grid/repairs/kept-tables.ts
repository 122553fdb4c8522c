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

export function forgetFormulasOfChangedTables(injector: Injector): void {
  const generator = injector.get(IFormulaDependencyGenerator) as unknown as { _disposeByUnitId(unitId: string): void };
  const given = injector.get(IFormulaCurrentConfigService) as unknown as { load(config: Changes): void };
  const load = given.load;
  given.load = function (config) {
    for (const changes of [config.dirtySuperTableMap, config.dirtyDefinedNameMap]) {
      for (const [unitId, changed] of Object.entries(changes ?? {})) if (Object.keys(changed ?? {}).length > 0) generator._disposeByUnitId(unitId);
    }
    load.call(this, config);
  };
}
