#include "db/search_query.h"

#include <QStringList>
#include <algorithm>
#include <optional>
#include <utility>

#include "core/base/assert.h"

namespace rodway {
namespace {

/// More words than this that begin as typed are left to the index: naming each costs more.
constexpr int most_named = 200;
constexpr qsizetype longest_kept_beginning = 3; ///< see the index's `prefix`

QString quoted(QString text) {
    text.replace(QLatin1Char('"'), QStringLiteral("\"\""));
    return QStringLiteral("\"%1\"").arg(text);
}

/// The letter without its accent, small, where there is no doubt that the index has it so too:
/// ASCII, and what European alphabets make of it.
std::optional<QChar> plain_letter(QChar c) {
    constexpr ushort end_of_latin_extended_b = 0x250;
    constexpr ushort first_accent = 0x300;
    constexpr ushort last_accent = 0x331;
    if (c.unicode() >= end_of_latin_extended_b) return std::nullopt;
    const QString parts = QString(c).normalized(QString::NormalizationForm_D);
    for (qsizetype at = 1; at < parts.size(); ++at) {
        const ushort accent = parts[at].unicode();
        if (accent < first_accent || accent > last_accent) return std::nullopt;
    }
    const QChar base = parts[0];
    if (base.unicode() >= 0x80 || !base.isLetterOrNumber()) return std::nullopt;
    return base.toLower();
}

bool divides(QChar c) {
    return c.unicode() < 0x80 && !c.isLetterOrNumber();
}

/// A typed word taken apart.
struct TypedWord {
    QString before; ///< as typed: whole words and what stands between them
    QString begun;  ///< the last one, of which only the beginning was typed; plain letters
};

/// Nothing if the last one has other letters.
std::optional<TypedWord> taken_apart(const QString& typed) {
    qsizetype end = typed.size();
    while (end > 0 && divides(typed[end - 1])) --end;
    TypedWord word;
    qsizetype begin = end;
    for (; begin > 0 && !divides(typed[begin - 1]); --begin) {
        const auto letter = plain_letter(typed[begin - 1]);
        if (!letter) return std::nullopt;
        word.begun.prepend(*letter);
    }
    if (word.begun.isEmpty()) return std::nullopt;
    word.before = typed.left(begin);
    return word;
}

/// The words of an index, as long as this lives.
class Vocabulary {
  public:
    static Result<Vocabulary> open(Connection& connection, const QString& table) {
        const auto made =
            connection.run(QStringLiteral("CREATE VIRTUAL TABLE temp.search_vocabulary"
                                          " USING fts5vocab(main, %1, instance)")
                               .arg(table));
        if (!made) return made.error();
        return Vocabulary(connection);
    }
    Vocabulary(Vocabulary&& other) noexcept
        : connection_(std::exchange(other.connection_, nullptr)) {}
    Vocabulary& operator=(Vocabulary&&) = delete;
    Vocabulary(const Vocabulary&) = delete;
    Vocabulary& operator=(const Vocabulary&) = delete;
    ~Vocabulary() {
        if (connection_ == nullptr) return;
        static_cast<void>(connection_->run(QStringLiteral("DROP TABLE temp.search_vocabulary")));
    }

    /// The words that begin so, each cut to `most_letters`, none twice; not more than `limit`. Each
    /// is one step from the one before, however many rows have it.
    Result<QStringList> beginning_with(const QString& begun, int most_letters, int limit) {
        // Behind a word that was cut come those with other beginnings, behind a whole one its
        // longer ones: no word has a letter as low as the first, or as high as the last.
        const QString sql =
            QStringLiteral(
                "WITH RECURSIVE found(term) AS ("
                " SELECT (SELECT term FROM temp.search_vocabulary WHERE term >= ? LIMIT"
                " 1) UNION ALL SELECT (SELECT term FROM temp.search_vocabulary WHERE"
                " term >= substr(found.term, 1, %1) || CASE WHEN length(found.term) < %1"
                " THEN char(1) ELSE char(1114111) END LIMIT 1)"
                " FROM found WHERE found.term < ?)"
                " SELECT substr(term, 1, %1) FROM found WHERE term < ? LIMIT ?")
                .arg(most_letters);
        const QString past = begun + QString::fromUcs4(U"\U0010ffff", 1);
        QStringList words;
        const auto read = connection_->each(
            sql, {begun, past, past, limit},
            [&words](const Row& row) { words << QString::fromStdString(row.text(0)); });
        if (!read) return read.error();
        return words;
    }

  private:
    explicit Vocabulary(Connection& connection) : connection_(&connection) {}
    Connection* connection_; ///< null after a move
};

bool has_letters(const QString& text) {
    return std::any_of(text.begin(), text.end(), [](QChar c) { return !divides(c); });
}

} // namespace

RoughQuery rough_query(const std::vector<QString>& words) {
    QStringList all;
    bool exact = true;
    for (const QString& typed : words) {
        const auto word = taken_apart(typed);
        if (word && word->begun.size() == 1) {
            exact = false;
            if (has_letters(word->before)) all << quoted(word->before);
        } else if (word && word->begun.size() > longest_kept_beginning) {
            exact = false;
            all << quoted(word->before + word->begun.left(longest_kept_beginning)) +
                       QStringLiteral(" *");
        } else {
            all << quoted(typed) + QStringLiteral(" *");
        }
    }
    return {all.join(QStringLiteral(" AND ")), exact};
}

Result<QString> match_expression(Connection& connection, const QString& table,
                                 const std::vector<QString>& words) {
    RODWAY_ASSERT(!words.empty());
    std::optional<Vocabulary> vocabulary;
    QStringList all;
    for (const QString& typed : words) {
        QString expression = quoted(typed) + QStringLiteral(" *");
        const auto word = taken_apart(typed);
        if (word && (word->begun.size() == 1 || word->begun.size() > longest_kept_beginning)) {
            if (!vocabulary) {
                auto opened = Vocabulary::open(connection, table);
                if (!opened) return opened.error();
                vocabulary.emplace(std::move(opened).value());
            }
            constexpr int whole = 1 << 16; // letters: FTS5 cuts words at 32768 bytes
            const bool one_letter = word->begun.size() == 1;
            const auto named =
                vocabulary->beginning_with(word->begun, one_letter ? 2 : whole, most_named + 1);
            if (!named) return named.error();
            QStringList alternatives;
            for (const QString& beginning : *named) {
                // Of one letter, the words of two letters and more stand by their beginnings.
                const bool begun = one_letter && beginning.size() > 1;
                alternatives << quoted(word->before + beginning) +
                                    (begun ? QStringLiteral(" *") : QString());
            }
            if (!alternatives.isEmpty() && alternatives.size() <= most_named) {
                expression = QStringLiteral("(%1)").arg(alternatives.join(QStringLiteral(" OR ")));
            }
        }
        all << expression;
    }
    return all.join(QStringLiteral(" AND "));
}

} // namespace rodway
