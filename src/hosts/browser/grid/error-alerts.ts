/** The hover of an error cell says what the function said, or what the error means. */
import type { Injector } from "@univerjs/core";
import { CellAlertManagerService, type ICellAlert } from "@univerjs/sheets-ui";

export interface ErrorWords {
  readonly error: string;
  readonly message: string;
}

/** `wordsOf` answers undefined for a cell that holds no error. */
export function putWordsOnAlerts(injector: Injector, wordsOf: (sheetId: string, row: number, column: number) => ErrorWords | undefined): void {
  const alerts = injector.get(CellAlertManagerService);
  const show = alerts.showAlert.bind(alerts);
  alerts.showAlert = (alert: ICellAlert) => {
    const { subUnitId, row, col } = alert.location;
    const words = wordsOf(subUnitId, row, col);
    if (!words) return show(alert);
    const lines = Math.ceil(words.message.length / 40);
    show({ ...alert, title: words.error, message: words.message, width: 300, height: 44 + lines * 18 });
  };
}
