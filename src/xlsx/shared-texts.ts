/** The texts that cells point to by number, in their order. */
import { lengthened, unescapedCellText, type Walk } from "./xml";

export class SharedTexts implements Walk {
  private text = "";
  private phonetic = 0;

  constructor(private readonly take: (text: string) => void) {}

  open(name: string): void {
    if (name === "si") this.text = "";
    else if (name === "rPh") this.phonetic++;
  }

  close(name: string, text: string): void {
    if (name === "t" && this.phonetic === 0) this.text = lengthened(this.text, text);
    else if (name === "rPh") this.phonetic--;
    else if (name === "si") {
      this.take(unescapedCellText(this.text));
      this.text = "";
    }
  }
}
