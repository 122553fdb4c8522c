-- What looks wrong in the shots of a log, in BigQuery. Not run there by whoever wrote it; the script itself is tested in a bare engine.
-- 1. Put check-shot.js into a bucket. 2. Write its address and your dataset below. 3. Run this once.

CREATE OR REPLACE FUNCTION your_dataset.check_shot(
  dose FLOAT64, beverage FLOAT64, shot_time FLOAT64, strength FLOAT64,
  dose_above FLOAT64, beverage_above FLOAT64, shot_time_above FLOAT64, strength_above FLOAT64)
RETURNS STRING
LANGUAGE js
OPTIONS (library = ["gs://your-bucket/check-shot.js"])
AS r"""
  return checkShot(dose, beverage, shot_time, strength, dose_above, beverage_above, shot_time_above, strength_above);
""";

-- Every row that looks wrong, in g, s and %. Columns that hold texts as people typed them: make the arguments STRING instead.
SELECT * FROM (
  SELECT *, your_dataset.check_shot(dose, beverage, shot_time, strength,
    LAG(dose) OVER before, LAG(beverage) OVER before, LAG(shot_time) OVER before, LAG(strength) OVER before) AS finding
  FROM your_dataset.shots
  WINDOW before AS (PARTITION BY cafe ORDER BY pulled_at))
WHERE finding <> '';
