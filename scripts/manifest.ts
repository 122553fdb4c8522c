/** Fills in the manifest: where the add-in's web folder is served, and the version. */
export interface ManifestValues {
  /** The https address of the web folder, without a slash at the end. */
  readonly address: string;
  /** The version of package.json, three numbers; the manifest's fourth is 0. */
  readonly version: string;
}

export function fillManifest(text: string, { address, version }: ManifestValues): string {
  if (!/^https:\/\/[^/\s]+(\/\S*[^/\s])?$/.test(address)) {
    throw new Error(`The address of the add-in is “${address}”; it has to begin with https:// and to end without a slash.`);
  }
  if (!/^\d{1,5}(\.\d{1,5}){2}$/.test(version)) {
    throw new Error(`The version is “${version}”; a manifest takes three numbers of at most five digits, such as 1.4.0.`);
  }
  return text.replaceAll("{{address}}", address).replaceAll("{{version}}", `${version}.0`);
}
