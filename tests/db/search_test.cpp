#include "db/search.h"

#include <limits>
#include <random>
#include <set>

#include "db/build_records.h"
#include "db/connection.h"
#include "db/search_fields.h"
#include "db/search_index.h"
#include "tests/db/plain_search.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr int all = 100000;

class SearchTest : public ShopTest {
  protected:
    std::vector<RecordRef> found(const std::string& typed) {
        std::vector<RecordRef> records;
        for (const Found& one : take(search(shop_, typed, all)).found)
            records.push_back(one.record);
        return records;
    }
    void expect_as_plain(const std::string& typed) {
        SCOPED_TRACE("typed: " + typed);
        const PlainSearch plain(shop_);
        auto scores = plain.nouns(typed);
        std::vector<RecordRef> readings;
        double last = std::numeric_limits<double>::infinity();
        for (const RecordRef& record : found(typed)) {
            if (record.kind == RecordKind::reading) {
                readings.push_back(record);
                continue;
            }
            EXPECT_TRUE(readings.empty());
            ASSERT_EQ(scores.count(record), 1U) << table_of(record.kind).word << record.id;
            // Summed in another order: what dominates is the rounding of the last digits.
            EXPECT_LE(scores[record], last * (1.0 + 1e-9));
            last = scores[record];
            scores.erase(record);
        }
        EXPECT_THAT(scores, IsEmpty());
        EXPECT_EQ(readings, plain.readings_newest_first(typed));
    }
    std::vector<std::string> index_findings() {
        std::vector<std::string> tables;
        for (const Finding& finding : take(shop_.check()).findings) {
            if (finding.code == FindingCode::search_index_differs) tables.push_back(finding.detail);
        }
        return tables;
    }
    std::int64_t note(const std::string& text) {
        Note note;
        note.id = take(new_id(shop_, RecordKind::note));
        note.build_id = 1;
        note.text = text;
        note.written_by = "Dee";
        note.written_at = noon;
        take(apply(shop_, edits_to_create(note), "Dee", noon));
        return note.id;
    }
    static RecordRef note_ref(std::int64_t id) { return {RecordKind::note, id}; }

    void SetUp() override { take(apply(shop_, edits_of_whole_build(), "Dee", noon)); }

    ShopFile shop_ = new_shop();
    const RecordRef build_{RecordKind::build, 1};
};

TEST_F(SearchTest, FindsByTheBeginningsOfAllWordsWhateverTheirCaseAndAccents) {
    const std::int64_t id = note("Café gasket, .0085 at 3I/tube/rocker");
    for (const char* typed :
         {"café", "CAFE", "gask caf", "0085", ".0085", "3i/tube", "tube rock"}) {
        EXPECT_THAT(found(typed), ElementsAre(note_ref(id))) << typed;
    }
    for (const char* typed : {"ask", "gasket steel", "tube/3i", "gasketed", "3I/rocker"}) {
        EXPECT_THAT(found(typed), IsEmpty()) << typed;
    }
}

TEST_F(SearchTest, TakesNothingThatIsTypedForItsOwnSigns) {
    const std::int64_t both = note("nuts and bolts");
    const std::int64_t bare = note("nuts bolts");
    const std::int64_t title = note("title blue near not or");
    EXPECT_THAT(found("nuts AND bolts"), ElementsAre(note_ref(both)));
    EXPECT_THAT(found("nuts OR blue"), IsEmpty());
    EXPECT_THAT(found("nuts NOT and"), IsEmpty());
    EXPECT_THAT(found("NOT"), ElementsAre(note_ref(title)));
    EXPECT_THAT(found("NEAR"), ElementsAre(note_ref(title)));
    EXPECT_THAT(found("NEAR(nuts bolts)"), IsEmpty());
    EXPECT_THAT(found("title:blue"), ElementsAre(note_ref(title)));
    EXPECT_THAT(found("title:nuts"), IsEmpty());
    EXPECT_THAT(found("-bolts"), ::testing::UnorderedElementsAre(note_ref(both), note_ref(bare)));
    EXPECT_THAT(found("\"nuts bolts\""),
                ::testing::UnorderedElementsAre(note_ref(both), note_ref(bare)));
    EXPECT_THAT(found("^bolts"), ::testing::UnorderedElementsAre(note_ref(both), note_ref(bare)));
    EXPECT_THAT(found("*"), IsEmpty());
    EXPECT_THAT(found("\" ' ( ) % \\ - — ;"), IsEmpty());
    EXPECT_THAT(found(""), IsEmpty());
    EXPECT_THAT(found("— nuts \" and"), ElementsAre(note_ref(both)));
    EXPECT_THAT(found(std::string("nuts\0and", 8)), ElementsAre(note_ref(both)));
}

TEST_F(SearchTest, NeverFailsWhateverIsTyped) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const std::vector<std::string> pieces{
        "AND", "OR",    "NOT",  "NEAR", "(",    ")",
        "*",   "^",     ":",    "-",    "\"",   "'",
        "%",   "\\",    "+",    "{",    "}",    ",",
        ";",   "--",    "/*",   " ",    " ",    "\n",
        "\t",  "\x01",  "\x1f", "rod",  "blue", "3I",
        "é",   ".008",  "\xff", "\xc3", "？",   "\xf0\x9f\x94\xa7",
        "_",   "title", "body", "?",    "1",    "\xef\xbb\xbf",
        "́",    "\x7f"};
    for (int round = 0; round < 10000; ++round) {
        std::string typed;
        for (auto left = random() % 12; left > 0; --left) {
            typed += pieces[random() % pieces.size()];
            if (random() % 20 == 0) typed += '\0';
        }
        const auto answer = search(shop_, typed, 5);
        ASSERT_TRUE(answer.ok()) << "'" << typed << "' " << describe(answer.error());
    }
    std::string words;
    std::string phrase;
    for (int i = 0; i < 5000; ++i) {
        words += "rod ";
        phrase += "rod-";
    }
    EXPECT_TRUE(search(shop_, words, 5).ok());
    EXPECT_TRUE(search(shop_, phrase, 5).ok());
}

TEST_F(SearchTest, AgreesWithReadingEveryRecordThroughChangesRemovalsAndUndo) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const std::vector<std::string> words{"rod",  "rod_clearance", "rodent", "Rocker", "rocker",
                                         "Café", "Müller",        ".0085",  ".008",   "3I/tube",
                                         "blue", "bluing",        "and",    "not",    "gasket"};
    const auto text = [&](unsigned most) {
        std::string all_words = words[random() % words.size()];
        for (auto left = random() % most; left > 0; --left) {
            all_words += random() % 4 == 0 ? "\n" : " ";
            all_words += words[random() % words.size()];
        }
        return all_words;
    };
    // Kinds of every road: one with title and body, one with a body, readings.
    const auto create = [&]() -> std::vector<Edit> {
        if (random() % 3 == 0) {
            Reading reading = sample_reading(take(new_id(shop_, RecordKind::reading)), 1);
            reading.quantity = random() % 2 == 0 ? "rod_clearance" : "bore";
            reading.text = text(2);
            reading.note = text(3);
            return edits_to_create(reading);
        }
        if (random() % 2 == 0) {
            PartRecord part;
            part.id = take(new_id(shop_, RecordKind::part));
            part.build_id = 1;
            part.item = text(2);
            part.note = text(8);
            return edits_to_create(part);
        }
        Note made;
        made.id = take(new_id(shop_, RecordKind::note));
        made.build_id = 1;
        made.text = text(10);
        made.written_by = "Dee";
        made.written_at = noon;
        return edits_to_create(made);
    };
    std::vector<std::int64_t> acts;
    for (int round = 0; round < 120; ++round) {
        std::vector<RecordRef> mine;
        for (const auto& [record, unused] : take(records_of_build(shop_, 1))) {
            if (record.kind == RecordKind::part || record.kind == RecordKind::note) {
                mine.push_back(record);
            }
        }
        const auto what = random() % 6;
        if (what < 3 || mine.empty()) {
            acts.push_back(take(apply(shop_, create(), "Dee", noon)).number);
        } else if (what == 3) {
            const RecordRef record = mine[random() % mine.size()];
            acts.push_back(
                take(apply(shop_, take(edits_to_remove(shop_, record)), "Dee", noon)).number);
        } else if (what == 4) {
            const RecordRef record = mine[random() % mine.size()];
            const char* field = record.kind == RecordKind::part ? "item" : "text";
            const std::string before =
                take(rows_of_kind(shop_, record.kind, 1)).at(record.id).at(field);
            const std::string after = text(3);
            if (before != after) {
                acts.push_back(
                    take(apply(shop_, {{record, field, before, after}}, "Dee", noon)).number);
            }
        } else if (!acts.empty()) {
            // The newest that still can be: what it stands on may have been changed since.
            if (const auto undone = undo(shop_, acts.back(), "Dee", noon))
                acts.back() = undone->number;
        }
        if (round % 6 == 5) {
            expect_as_plain(text(3));
            for (const std::size_t letters : {1, 3, 5}) {
                expect_as_plain(words[random() % words.size()].substr(0, letters));
            }
        }
    }
    EXPECT_THAT(index_findings(), IsEmpty());
}

TEST_F(SearchTest, FindsEveryLetterWithAndWithoutItsAccentAsTheIndexHasIt) {
    // Typed so that the query names the words: the index alone says what they are.
    std::string text;
    std::vector<std::string> typed;
    for (char32_t letter = 0xc0; letter < 0x250; ++letter) {
        const std::string one = QString::fromUcs4(&letter, 1).toStdString();
        typed.push_back("zqx" + one + "y");
        text += "zqx" + one + "yard ";
    }
    const std::int64_t id = note(text);
    for (const std::string& word : typed) {
        EXPECT_THAT(found(word), ElementsAre(note_ref(id))) << word;
    }
    const std::int64_t accents = note("Crème brûlée, Škoda, Ångström");
    for (const char* plain : {"creme", "BRUL", "skod", "angstr", "crÈm", "brûlé"}) {
        EXPECT_THAT(found(plain), ElementsAre(note_ref(accents))) << plain;
    }
}

TEST_F(SearchTest, AgreesWithReadingEveryRecordHoweverManyWordsBeginAsTyped) {
    for (int number = 0; number < 5; ++number) {
        std::string text;
        for (int word = 0; word < 60; ++word) {
            text += "ring/gaps" + std::to_string(100 + number * 60 + word) + "x ";
        }
        note(text);
    }
    Reading reading = sample_reading(2, 1);
    reading.note = "g rin ring gap";
    take(apply(shop_, edits_to_create(reading), "Dee", noon));
    // "gaps" begins 300 words, with a digit 100, with two a few; "g" is a word and begins many.
    for (const char* typed :
         {"gaps", "gaps1", "gaps39", "ring/gaps", "ring/gaps10", "ring/gaps2/ring", "g", "r",
          "gaps1 g", "ring gap", "gaps4", "gaps100x", "gaps100xy"}) {
        expect_as_plain(typed);
    }
    EXPECT_EQ(found("gaps").size(), 5U);
    EXPECT_EQ(found("gaps1").size(), 2U);
}

TEST_F(SearchTest, AgreesWithReadingEveryRecordAmongManyThatBeginAlike) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    // The newer ones have other words than the older, so that no road finds enough at once.
    const std::vector<std::string> words{"maid", "main", "mainly", "main/3", "34", "3", "clear"};
    std::vector<Edit> edits;
    for (std::int64_t id = 2; id <= 500; ++id) {
        const auto word = [&] {
            return words[random() % (id < 150 ? words.size() : words.size() / 2)];
        };
        Reading reading = sample_reading(id, 1);
        reading.note = word() + ' ' + word();
        for (Edit& edit : edits_to_create(reading)) edits.push_back(std::move(edit));
        Note made;
        made.id = id;
        made.build_id = 1;
        made.text = word() + ' ' + word() + ' ' + word();
        made.written_by = "Dee";
        made.written_at = noon;
        for (Edit& edit : edits_to_create(made)) edits.push_back(std::move(edit));
    }
    take(apply(shop_, edits, "Dee", noon));
    const PlainSearch plain(shop_);
    for (const char* typed :
         {"maid", "mainl", "main", "clea", "main clear", "main/3", "3", "m", "c", "c 3", "34 3",
          "clear 34", "mai clea", "main/3 34", "mainz", "main q"}) {
        SCOPED_TRACE(typed);
        expect_as_plain(typed);
        constexpr std::size_t limit = 5;
        std::vector<RecordRef> wanted = plain.readings_newest_first(typed);
        if (wanted.size() > limit) wanted.resize(limit);
        std::vector<RecordRef> readings;
        for (const Found& one : take(search(shop_, typed, int{limit})).found) {
            if (one.record.kind == RecordKind::reading) readings.push_back(one.record);
        }
        EXPECT_EQ(readings, wanted);
    }
}

TEST_F(SearchTest, OfMoreNounsThanAreComparedSaysSoAndComparesTheNewestOfEachKind) {
    Customer customer;
    customer.id = 1;
    customer.name = "Gasket works";
    take(apply(shop_, edits_to_create(customer), "Dee", noon));
    std::vector<Edit> edits;
    const auto add_notes = [&](std::int64_t from, std::int64_t to) {
        edits.clear();
        for (std::int64_t id = from; id <= to; ++id) {
            Note made;
            made.id = id;
            made.build_id = 1;
            // Among the oldest and among the newest stands one that says it best.
            made.text = id == 10 || id == 1100 ? "gasket gasket" : "a gasket like any other";
            made.written_by = "Dee";
            made.written_at = noon;
            for (Edit& edit : edits_to_create(made)) edits.push_back(std::move(edit));
        }
        take(apply(shop_, edits, "Dee", noon));
    };
    add_notes(2, most_compared); // with the customer as many as are compared
    SearchAnswer answer = take(search(shop_, "gasket", 3));
    EXPECT_FALSE(answer.newest_only);
    ASSERT_EQ(answer.found.size(), 3U);
    EXPECT_EQ(answer.found[0].record, (RecordRef{RecordKind::customer, 1}));
    EXPECT_EQ(answer.found[1].record, note_ref(10));
    EXPECT_EQ(answer.found[2].record, note_ref(most_compared));
    add_notes(most_compared + 1, 1200);
    answer = take(search(shop_, "gask", 3));
    EXPECT_TRUE(answer.newest_only);
    ASSERT_EQ(answer.found.size(), 3U);
    EXPECT_EQ(answer.found[0].record, (RecordRef{RecordKind::customer, 1}));
    EXPECT_EQ(answer.found[1].record, note_ref(1100));
    EXPECT_EQ(answer.found[2].record, note_ref(1200));
    answer = take(search(shop_, "gasket works", 3));
    EXPECT_FALSE(answer.newest_only);
    EXPECT_EQ(answer.found.size(), 1U);
}

TEST_F(SearchTest, PutsATitleBeforeATextAndNounsBeforeReadingsNewestFirst) {
    Reading old_reading = sample_reading(2, 1);
    old_reading.note = "gasket taken";
    Reading new_reading = old_reading;
    new_reading.id = 3;
    const std::int64_t in_note = note("the gasket is crushed, see the sheet about the gasket");
    PartRecord part;
    part.id = 1;
    part.build_id = 1;
    part.item = "Head gasket";
    part.note = "lies in the second drawer under the bench";
    take(apply(shop_, edits_to_create(part), "Dee", noon));
    take(apply(shop_, edits_to_create(old_reading), "Dee", noon));
    take(apply(shop_, edits_to_create(new_reading), "Dee", noon));
    EXPECT_THAT(found("gasket"),
                ElementsAre(RecordRef{RecordKind::part, 1}, note_ref(in_note),
                            RecordRef{RecordKind::reading, 3}, RecordRef{RecordKind::reading, 2}));
    std::vector<RecordRef> first;
    for (const Found& one : take(search(shop_, "gasket", 1)).found) first.push_back(one.record);
    EXPECT_THAT(first,
                ElementsAre(RecordRef{RecordKind::part, 1}, RecordRef{RecordKind::reading, 3}));
}

TEST_F(SearchTest, TellsTheBuildTheFieldAndThePassageWithItsMarks) {
    take(apply(shop_, {{build_, "customer", sample_build(1).customer, "Müller & Sohn"}}, "Dee",
               noon));
    const auto answer = take(search(shop_, "MULL sohn", 5)).found;
    ASSERT_EQ(answer.size(), 1U);
    EXPECT_EQ(answer[0].record, build_);
    EXPECT_EQ(answer[0].build_id, 1);
    EXPECT_EQ(answer[0].title, sample_build(1).name);
    EXPECT_EQ(answer[0].field, "customer");
    EXPECT_EQ(answer[0].passage.text, "Müller & Sohn");
    EXPECT_THAT(answer[0].passage.marks, ElementsAre(TextMark{0, 7}, TextMark{10, 4}));
    Customer customer;
    customer.id = 1;
    customer.name = "R. Marsh";
    take(apply(shop_, edits_to_create(customer), "Dee", noon));
    const auto person = take(search(shop_, "marsh", 5)).found;
    ASSERT_EQ(person.size(), 1U);
    EXPECT_EQ(person[0].build_id, shop_wide);
    EXPECT_EQ(person[0].field, "name");
}

TEST_F(SearchTest, DoesNotFindAnErasedCustomerNorKeepTheirWords) {
    Customer customer;
    customer.id = 1;
    customer.name = "R. Vexley";
    customer.address = "Quennelhurst";
    take(apply(shop_, edits_to_create(customer), "Dee", noon));
    ASSERT_EQ(found("vexley").size(), 1U);
    Customer erased;
    erased.id = 1;
    erased.name = "withheld";
    erased.erased = noon;
    take(apply(shop_, edits_to_change(customer, erased), "Dee", noon));
    for (const char* typed : {"vexley", "quennelhurst", "withheld"}) {
        EXPECT_THAT(found(typed), IsEmpty()) << typed;
    }
    EXPECT_THAT(index_findings(), IsEmpty());
    const std::string kept =
        "SELECT count(*) FROM search_nouns_data WHERE"
        " instr(block, CAST('uennelhurst' AS BLOB)) > 0";
    EXPECT_NE(ask(shop_.path(), kept), "0"); // else the next line shows nothing
    Transaction transaction =
        take(Transaction::begin(shop_.connection(), Transaction::Kind::write));
    take(drop_old_search_words(shop_.connection()));
    take(transaction.commit());
    EXPECT_EQ(ask(shop_.path(), kept), "0");
    EXPECT_FALSE(found("blue").empty());
    EXPECT_THAT(index_findings(), IsEmpty());
}

TEST_F(SearchTest, StaysRightWithTwoWriters) {
    ShopFile other = take(ShopFile::open(shop_.path()));
    for (int round = 0; round < 20; ++round) {
        ShopFile& writer = round % 2 == 0 ? shop_ : other;
        PartRecord part;
        part.id = take(new_id(writer, RecordKind::part));
        part.build_id = 1;
        part.item = "piston " + std::to_string(round);
        take(apply(writer, edits_to_create(part), "Dee", noon));
        ASSERT_EQ(take(search(shop_, "piston", all)).found.size(),
                  static_cast<std::size_t>(round) + 1);
        ASSERT_EQ(take(search(other, "piston", all)).found.size(),
                  static_cast<std::size_t>(round) + 1);
    }
    EXPECT_THAT(index_findings(), IsEmpty());
}

TEST_F(SearchTest, AnIndexThatLostARecordIsFoundOutAndMended) {
    const std::int64_t id = note("gasket");
    const std::int64_t other = note("lifter");
    const auto row = [](std::int64_t record) { return std::to_string(record * 64 + 4); };
    // The same words under another record: every word still stands there as often as it should.
    const auto swap = [&](std::int64_t from, std::int64_t to, const std::string& word) {
        const std::string texts = "'', '" + word + "' || char(10) || 'Dee')";
        tamper(shop_.path(),
               "INSERT INTO search_nouns (search_nouns, rowid, title, body)"
               " VALUES ('delete', " +
                   row(from) + ", " + texts);
        tamper(shop_.path(),
               "INSERT INTO search_nouns (rowid, title, body) VALUES (" + row(to) + ", " + texts);
    };
    EXPECT_THAT(index_findings(), IsEmpty());
    swap(id, other + 1, "gasket");
    EXPECT_THAT(index_findings(), ElementsAre("search_nouns"));
    EXPECT_THAT(found("gasket"), IsEmpty()); // the index leads to no record
    take(rebuild_search(shop_));
    EXPECT_THAT(index_findings(), IsEmpty());
    EXPECT_THAT(found("gasket"), ElementsAre(note_ref(id)));
}

TEST_F(SearchTest, AnEmptiedIndexIsFoundOutAndDoesNotStandInTheWayOfEdits) {
    for (const char* table : {"search_nouns", "search_readings"}) {
        const std::string name(table);
        tamper(shop_.path(), "INSERT INTO " + name + " (" + name + ") VALUES ('delete-all')");
    }
    EXPECT_THAT(index_findings(), ElementsAre("search_nouns", "search_readings"));
    EXPECT_THAT(found("blue"), IsEmpty());
    take(apply(shop_, {{build_, "name", sample_build(1).name, "Green pickup"}}, "Dee", noon));
    EXPECT_THAT(found("green pickup"), ElementsAre(build_));
    EXPECT_THAT(index_findings(), IsEmpty());
}

TEST_F(SearchTest, AnIndexThatCannotBeReadIsAFindingNotAFailure) {
    tamper(shop_.path(), "UPDATE search_nouns_data SET block = x'00' WHERE id > 10");
    EXPECT_THAT(index_findings(), ElementsAre("search_nouns"));
    take(rebuild_search(shop_));
    EXPECT_THAT(index_findings(), IsEmpty());
}

TEST_F(SearchTest, AFileOfAVersionWithoutAnIndexIsSearchedFromItsFirstOpening) {
    const std::string path = in_folder("old.rodway");
    write_bytes(path, bytes_of(std::string(RODWAY_TEST_DATA) + "/shop_files/version-1.rodway"));
    shop_ = take(ShopFile::open(path));
    EXPECT_FALSE(found("Merrow").empty());
    EXPECT_FALSE(found("3I").empty());
    EXPECT_THAT(index_findings(), IsEmpty());
}

TEST_F(SearchTest, AnIdWithoutRoomForItsKindIsRefused) {
    const Error error =
        refusal(apply(shop_, edits_to_create(sample_build(highest_searched_id + 1)), "Dee", noon));
    EXPECT_EQ(error.code, ErrorCode::out_of_range);
    EXPECT_EQ(error.field, "id");
    take(apply(shop_, edits_to_create(sample_build(highest_searched_id)), "Dee", noon));
    EXPECT_THAT(found(sample_build(1).name).size(), 2U);
    EXPECT_THAT(index_findings(), IsEmpty());
}

} // namespace
} // namespace rodway
