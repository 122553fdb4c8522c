/** What Excel reports, as a sentence. */
export function inWords(error: unknown): string {
  if (error instanceof OfficeExtension.Error && error.code === OfficeExtension.ErrorCodes.accessDenied) {
    return "The workbook does not allow changes: it may be read-only, protected or marked as final.";
  }
  const message = error instanceof Error ? error.message : String(error);
  return /[.!?]$/.test(message) ? message : `${message}.`;
}
