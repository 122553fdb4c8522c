-- What looks wrong in the shots of a log, in PostgreSQL with the extension plv8. Not run there by whoever wrote it; the script itself is tested
-- in a bare engine.

CREATE EXTENSION IF NOT EXISTS plv8;

CREATE OR REPLACE FUNCTION check_shot(
  dose double precision, beverage double precision, shot_time double precision, strength double precision,
  dose_above double precision, beverage_above double precision, shot_time_above double precision, strength_above double precision)
RETURNS text AS $check_shot$
  // Once for all rows.
  if (typeof pucksheetCheckShot === "undefined") {
    {{check-shot.js}}
    pucksheetCheckShot = checkShot;
  }
  return pucksheetCheckShot(dose, beverage, shot_time, strength, dose_above, beverage_above, shot_time_above, strength_above);
$check_shot$ LANGUAGE plv8 IMMUTABLE;

-- Every row that looks wrong, in g, s and %. Columns that hold texts as people typed them: make the arguments text instead.
SELECT * FROM (
  SELECT *, check_shot(dose, beverage, shot_time, strength,
    lag(dose) OVER before, lag(beverage) OVER before, lag(shot_time) OVER before, lag(strength) OVER before) AS finding
  FROM shots
  WINDOW before AS (PARTITION BY cafe ORDER BY pulled_at)) AS checked
WHERE finding <> '';
