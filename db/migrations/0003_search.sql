-- The words of the records, so that they can be searched.

-- Without the texts themselves, which stand in the records: `db/search_index` keeps both in step.
-- The row of a noun carries its kind and id, that of a reading is the reading's id.
CREATE VIRTUAL TABLE search_nouns USING fts5(
    title, body, content='', tokenize="unicode61 remove_diacritics 2", prefix='2 3');

CREATE VIRTUAL TABLE search_readings USING fts5(
    body, content='', tokenize="unicode61 remove_diacritics 2", prefix='2 3');
