declare const PROJECT_VERSION: string;

/** The version of package.json, which the build puts in. */
export const projectVersion: string = PROJECT_VERSION;
