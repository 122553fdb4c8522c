-- What looks wrong in the shots of a log, in Snowflake. Not run there by whoever wrote it; the script itself is tested in a bare engine.
-- In SnowSQL first: !set variable_substitution=false

CREATE OR REPLACE FUNCTION check_shot(
  dose FLOAT, beverage FLOAT, shot_time FLOAT, strength FLOAT,
  dose_above FLOAT, beverage_above FLOAT, shot_time_above FLOAT, strength_above FLOAT)
RETURNS STRING
LANGUAGE JAVASCRIPT
IMMUTABLE
AS $$
  // Once for all rows.
  if (typeof pucksheetCheckShot === "undefined") {
    {{check-shot.js}}
    pucksheetCheckShot = checkShot;
  }
  return pucksheetCheckShot(DOSE, BEVERAGE, SHOT_TIME, STRENGTH, DOSE_ABOVE, BEVERAGE_ABOVE, SHOT_TIME_ABOVE, STRENGTH_ABOVE);
$$;

-- Every row that looks wrong, in g, s and %. Columns that hold texts as people typed them: make the arguments STRING instead.
SELECT *, check_shot(dose, beverage, shot_time, strength,
  LAG(dose) OVER (PARTITION BY cafe ORDER BY pulled_at), LAG(beverage) OVER (PARTITION BY cafe ORDER BY pulled_at),
  LAG(shot_time) OVER (PARTITION BY cafe ORDER BY pulled_at), LAG(strength) OVER (PARTITION BY cafe ORDER BY pulled_at)) AS finding
FROM shots
QUALIFY finding <> '';
