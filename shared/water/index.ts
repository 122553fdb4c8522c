/** Brewing water: hardness and alkalinity, what they do to scale, blending, filters, and minerals for pure water. */
export { waterBlend, waterBlendShare, waterCarbonate } from "./blend";
export { waterCheck } from "./check";
export { waterTds } from "./dissolved-solids";
export { waterFilterLife } from "./filter-life";
export { waterLangelier, waterLarsonSkold, waterRyznar } from "./indices";
export { waterIons, waterRecipe, waterSalt } from "./minerals";
export { waterScale } from "./scale";
