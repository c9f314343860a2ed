#include "db/record_fields.h"

#include <random>
#include <set>
#include <tuple>

#include "db/build_records.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using AllRecords =
    std::tuple<ShopDetail, ShopSheetKind, ShopQuantity, ShopPlan, Person, Customer, Instrument,
               Product, KnownEngine, Build, CastingNumber, Promise, Visit, HandOff, SetUpRecord,
               Stage, Step, Gate, PartRecord, Waiver, Cure, OpenItem, Decision, Approval,
               WorkedTime, AccountLine, Sheet, LimitRecord, Reading, SignOff, Note, Photo>;

template <typename Take>
void for_each_record(Take take) {
    std::apply([&take](const auto&... records) { (take(records), ...); }, AllRecords());
}

/// A text that the field may hold, another for each field and round.
std::string some_text(const RecordField& field, int round) {
    static int counter = 0;
    const int number = ++counter;
    switch (field.form) {
        case FieldForm::text:
            return "text " + std::to_string(number) + " of " + std::string(field.name);
        case FieldForm::count:
            return std::to_string(number);
        case FieldForm::reference:
            return "1"; // the first of its kind
        case FieldForm::date:
            return "2026-0" + std::to_string(1 + number % 9) + "-1" + std::to_string(number % 10);
        case FieldForm::utc:
            return "2026-0" + std::to_string(1 + number % 9) + "-1" + std::to_string(number % 10) +
                   "T08:00:00Z";
        case FieldForm::digest:
            return std::string(64, "0123456789abcdef"[number % 16]);
        case FieldForm::money:
            return "-" + std::to_string(number) + ".05";
        case FieldForm::flag:
            return "1";
        case FieldForm::choice:
            return std::string(
                field.choices[static_cast<std::size_t>(round) % field.choices.size()]);
    }
    return {};
}

FieldTexts full(RecordKind kind, int round) {
    FieldTexts texts{{"exists", "1"}};
    for (const RecordField& field : table_of(kind).fields) {
        texts[std::string(field.name)] = some_text(field, round);
    }
    if (path_table(kind) != nullptr) texts["trains/3I/rod/length"] = "8 1/4 in";
    return texts;
}

std::vector<Edit> edits_of(RecordRef record, const FieldTexts& texts) {
    std::vector<Edit> edits;
    for (const auto& [field, text] : texts) edits.push_back({record, field, std::nullopt, text});
    return edits;
}

using RecordFieldsTest = ShopTest;

TEST_F(RecordFieldsTest, HaveAStructWithAMemberForEveryFieldOfEveryKind) {
    std::set<RecordKind> kinds;
    for_each_record([&kinds](const auto& record) {
        using Shape = RecordShape<std::decay_t<decltype(record)>>;
        std::set<std::string> members;
        Shape::visit([&members](const char* name, const auto&) { members.insert(name); }, record);
        std::set<std::string> fields;
        for (const RecordField& field : table_of(Shape::kind).fields) {
            fields.emplace(field.name);
        }
        EXPECT_EQ(members, fields) << table_of(Shape::kind).word;
        kinds.insert(Shape::kind);
    });
    EXPECT_EQ(kinds.size(), record_tables().size());
}

TEST_F(RecordFieldsTest, ComeBackFromTheFileInEveryKindWithEveryFieldAndWithNone) {
    ShopFile shop = new_shop();
    for (int round = 1; round <= 6; ++round) { // the choices have up to six words
        for_each_record([&](const auto& record) {
            using Record = std::decay_t<decltype(record)>;
            constexpr RecordKind kind = RecordShape<Record>::kind;
            SCOPED_TRACE(table_of(kind).word);
            const FieldTexts texts = full(kind, round - 1);
            take(apply(shop, edits_of({kind, round}, texts), "Dee", noon));

            const RecordTexts stored =
                take(records_of_build(shop, kind < RecordKind::build    ? shop_wide
                                            : kind == RecordKind::build ? round
                                                                        : 1));
            EXPECT_EQ(stored.at(RecordRef{kind, round}), texts);
            const Record loaded = take(record_from<Record>(round, texts));
            EXPECT_EQ(loaded.id, round);
            EXPECT_EQ(fields_of(loaded), texts);
            // What a screen writes: the same edits, and none where nothing has changed.
            const auto created = edits_to_create(loaded);
            EXPECT_EQ(created.size(), texts.size());
            EXPECT_TRUE(edits_to_change(loaded, loaded).empty());
        });
    }
    EXPECT_EQ(take(load_records<Person>(shop, shop_wide)).size(), 6U);
    EXPECT_EQ(take(load_records<PartRecord>(shop, 1)).size(), 6U);
    EXPECT_TRUE(take(load_records<PartRecord>(shop, 2)).empty());
}

TEST_F(RecordFieldsTest, OfANewRecordWithOnlyWhatIsNeededAreOnlyThose) {
    ShopFile shop = new_shop();
    take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
    PartRecord part;
    part.id = 1;
    part.build_id = 1;
    part.item = "head gasket";
    take(apply(shop, edits_to_create(part), "Dee", noon));
    const PartRecord loaded = take(load_records<PartRecord>(shop, 1)).at(0);
    EXPECT_EQ(loaded.item, "head gasket");
    EXPECT_EQ(loaded.owner, PartOwner::shop);
    EXPECT_FALSE(loaded.count || loaded.cost || loaded.fitted || loaded.replaces_id);
    EXPECT_EQ(fields_of(loaded).size(), 4U);
}

TEST_F(RecordFieldsTest, ThatChangedAreTheOnlyOnesEdited) {
    PartRecord before;
    before.id = 3;
    before.item = "head gasket";
    before.count = 2;
    PartRecord after = before;
    after.count.reset();
    after.received = "2026-04-01";
    const RecordRef ref{RecordKind::part, 3};
    EXPECT_THAT(edits_to_change(before, after),
                ::testing::ElementsAre(Edit{ref, "count", "2", std::nullopt},
                                       Edit{ref, "received", std::nullopt, "2026-04-01"}));
}

TEST_F(RecordFieldsTest, ThatNobodyCouldHaveWrittenAreDamageAndNoCrash) {
    const auto damaged = [](FieldTexts texts) {
        return refusal(record_from<PartRecord>(1, texts)).field;
    };
    EXPECT_EQ(damaged({{"count", "two"}}), "count");
    EXPECT_EQ(damaged({{"count", "99999999999999999999"}}), "count");
    EXPECT_EQ(damaged({{"owner", "nobody"}}), "owner");
    EXPECT_EQ(refusal(record_from<Note>(1, {{"in_book", "0"}})).code, ErrorCode::damaged_file);
    EXPECT_EQ(refusal(record_from<SetUpRecord>(1, {{"a/b", " in"}})).field, "a/b");
}

} // namespace
} // namespace rodway
