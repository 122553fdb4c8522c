/** Why a file cannot be opened or saved, as a full sentence for the person. */
export class FileProblem extends Error {}
