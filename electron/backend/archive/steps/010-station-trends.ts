/**
 * No records: beside what the list shows of a station, how it goes over the years, so that thousands of histories need not be looked
 * through at each start. It is thrown away with the face; what is there in the old form is worked out anew.
 */
export const stationTrends = `
DELETE FROM station_face;
ALTER TABLE station_face ADD COLUMN trend TEXT CHECK (json_valid(trend));
ALTER TABLE station_face ADD COLUMN trend_judged_by TEXT;
`;
