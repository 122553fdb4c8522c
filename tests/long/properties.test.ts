/** What holds whatever the cells hold, at full count. */
import "../properties.test.ts";
