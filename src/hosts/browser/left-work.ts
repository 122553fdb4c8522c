/** The line that offers work which a page that was reloaded, closed or crashed has left behind. */
import type { LeftWork, WorkKeeper } from "./kept-work";

export interface LeftWorkActions {
  goOn(id: string): Promise<void>;
  mayDiscard(): Promise<boolean>;
}

/** Shows nothing where nothing was left. */
export async function offerLeftWork(place: HTMLElement, keeper: WorkKeeper, actions: LeftWorkActions): Promise<void> {
  const left = await keeper.leftBehind();
  const again = () => offerLeftWork(place, keeper, actions);
  const later = button("Later", () => (place.hidden = true));
  const list = document.createElement("ul");
  list.append(
    ...left.map((work) => {
      const item = document.createElement("li");
      item.append(
        `Not saved: “${work.fileName}”, changed ${inWords(work)}. `,
        button("Go on with it", () => actions.goOn(work.id).then(again)),
        button("Discard", async () => {
          if (!(await actions.mayDiscard())) return;
          await keeper.forget(work.id);
          await again();
        }),
      );
      return item;
    }),
  );
  place.replaceChildren(list, later);
  place.hidden = left.length === 0;
}

function button(words: string, act: () => unknown): HTMLButtonElement {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = words;
  made.addEventListener("click", () => void act());
  return made;
}

function inWords({ at }: LeftWork): string {
  return at.toLocaleString("en", { weekday: "long", day: "numeric", month: "long", hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
}
