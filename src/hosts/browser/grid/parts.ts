/** Parts of the grid library that few need, each a file of its own that is loaded when it is first asked for. */
import { ICommandService, LocaleService, LocaleType, type ILanguagePack, type Plugin, type PluginCtor, type Univer } from "@univerjs/core";

export interface Part {
  readonly plugins: readonly PluginCtor<Plugin>[];
  readonly locales: readonly ILanguagePack[];
}

export class Parts {
  private readonly added = new Map<Part, Promise<void>>();

  constructor(private readonly univer: Univer) {}

  /** Resolves once the grid knows the command, which is the part's: plugins that are registered late start in a turn of their own. */
  add(part: Part, command: string): Promise<void> {
    const known = this.added.get(part) ?? this.register(part, command);
    this.added.set(part, known);
    return known;
  }

  private async register({ plugins, locales }: Part, command: string): Promise<void> {
    const injector = this.univer.__getInjector();
    for (const words of locales) injector.get(LocaleService).load({ [LocaleType.EN_US]: words });
    for (const plugin of plugins) this.univer.registerPlugin(plugin);
    const commands = injector.get(ICommandService);
    while (!commands.hasCommand(command)) await new Promise((resolve) => setTimeout(resolve, 10));
  }
}
