#include "db/sql_script.h"

#include <gmock/gmock.h>

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(SqlScript, PartsStatementsAtSemicolonsAndLeavesOutEmptyPieces) {
    EXPECT_THAT(split_statements("SELECT 1;; ;\nSELECT 2 ; "),
                ElementsAre("SELECT 1", "SELECT 2 "));
    EXPECT_THAT(split_statements(""), IsEmpty());
    EXPECT_THAT(split_statements(" -- only; a comment\n /* and; another */ ;"), IsEmpty());
}

TEST(SqlScript, TakesALastStatementWithoutSemicolon) {
    EXPECT_THAT(split_statements("SELECT 1; SELECT 2"), ElementsAre("SELECT 1", "SELECT 2"));
}

TEST(SqlScript, RespectsEveryKindOfQuote) {
    EXPECT_THAT(split_statements("SELECT ';', 'it''s; so', \"a;\"\"b\", `c;d`, [e;f]; SELECT 2"),
                ElementsAre("SELECT ';', 'it''s; so', \"a;\"\"b\", `c;d`, [e;f]", "SELECT 2"));
}

TEST(SqlScript, RespectsCommentsInsideAStatementAndQuotesInsideComments) {
    EXPECT_THAT(split_statements("SELECT 1 -- it's; fine\n, 2 /* don't; */; SELECT '--'; SELECT 3"),
                ElementsAre("SELECT 1 -- it's; fine\n, 2 /* don't; */", "SELECT '--'", "SELECT 3"));
}

TEST(SqlScript, KeepsATriggersBodyWhole) {
    const std::string trigger =
        "create temp trigger t AFTER INSERT ON a BEGIN\n"
        "  UPDATE a SET x = CASE WHEN y THEN 1 ELSE 2 END;\n  DELETE FROM b; -- END;\n"
        "  SELECT 'END;';\nEND";
    EXPECT_THAT(split_statements(trigger + ";SELECT 1;"), ElementsAre(trigger, "SELECT 1"));
}

TEST(SqlScript, DoesNotTakeATransactionOrAColumnNameForATriggersBody) {
    EXPECT_THAT(
        split_statements("BEGIN; SELECT 1; END; CREATE TABLE trigger_begin (begin_x);SELECT 2"),
        ElementsAre("BEGIN", "SELECT 1", "END", "CREATE TABLE trigger_begin (begin_x)",
                    "SELECT 2"));
}

TEST(SqlScript, GivesARestThatStopsInsideAQuoteAsOneStatement) {
    EXPECT_THAT(split_statements("SELECT 1; SELECT 'a; b"),
                ElementsAre("SELECT 1", "SELECT 'a; b"));
}

} // namespace
} // namespace rodway
