#include "db/search_words.h"

#include <QStringList>
#include <algorithm>

#include "core/base/assert.h"

namespace rodway {
namespace {

constexpr qsizetype longest_passage = 160;
constexpr qsizetype before_the_match = 48;

bool is_mark(QChar::Category category) {
    return category >= QChar::Mark_NonSpacing && category <= QChar::Mark_Enclosing;
}

/// A word as the index has it, and where it stands.
struct Token {
    QString folded;
    qsizetype begin = 0;
    qsizetype end = 0;
};

QString folded(const QString& word) {
    QString plain;
    for (const QChar c : word.normalized(QString::NormalizationForm_D)) {
        if (!is_mark(c.category())) plain += c;
    }
    return plain.toCaseFolded();
}

std::vector<Token> tokens_of(const QString& text) {
    std::vector<Token> tokens;
    qsizetype begin = -1;
    for (qsizetype at = 0; at <= text.size();) {
        char32_t c = at < text.size() ? text[at].unicode() : U' ';
        qsizetype length = 1;
        if (at + 1 < text.size() && text[at].isHighSurrogate() && text[at + 1].isLowSurrogate()) {
            c = QChar::surrogateToUcs4(text[at], text[at + 1]);
            length = 2;
        }
        const bool inside = QChar::isLetterOrNumber(c) ||
                            QChar::category(c) == QChar::Other_PrivateUse ||
                            (begin >= 0 && is_mark(QChar::category(c)));
        if (inside && begin < 0) begin = at;
        if (!inside && begin >= 0) {
            tokens.push_back({folded(text.mid(begin, at - begin)), begin, at});
            begin = -1;
        }
        at += length;
    }
    return tokens;
}

/// Whether the tokens of a typed word follow each other from `at`, the last of them begun.
bool stands_at(const std::vector<Token>& text, std::size_t at, const std::vector<Token>& word) {
    if (at + word.size() > text.size()) return false;
    for (std::size_t i = 0; i + 1 < word.size(); ++i) {
        if (text[at + i].folded != word[i].folded) return false;
    }
    return text[at + word.size() - 1].folded.startsWith(word.back().folded);
}

/// All places in UTF-16 where a typed word stands, in order and apart from each other.
std::vector<std::pair<qsizetype, qsizetype>> places(const QString& text,
                                                    const std::vector<QString>& words,
                                                    int& words_found) {
    const std::vector<Token> tokens = tokens_of(text);
    std::vector<std::pair<qsizetype, qsizetype>> found;
    for (const QString& typed : words) {
        const std::vector<Token> word = tokens_of(typed);
        if (word.empty()) continue;
        const std::size_t before = found.size();
        for (std::size_t at = 0; at < tokens.size(); ++at) {
            if (!stands_at(tokens, at, word)) continue;
            found.emplace_back(tokens[at].begin, tokens[at + word.size() - 1].end);
        }
        if (found.size() > before) ++words_found;
    }
    std::sort(found.begin(), found.end());
    std::vector<std::pair<qsizetype, qsizetype>> apart;
    for (const auto& place : found) {
        if (!apart.empty() && place.first <= apart.back().second) {
            apart.back().second = std::max(apart.back().second, place.second);
        } else {
            apart.push_back(place);
        }
    }
    return apart;
}

/// The next place from `at` where the text may be cut: behind a space, or at its end.
qsizetype cut_from(const QString& text, qsizetype at) {
    if (at <= 0) return 0;
    while (at < text.size() && !text[at - 1].isSpace()) ++at;
    return at;
}

std::size_t bytes(const QString& text, qsizetype begin, qsizetype end) {
    return static_cast<std::size_t>(text.mid(begin, end - begin).toUtf8().size());
}

} // namespace

std::vector<QString> typed_words(const std::string& typed) {
    QString spaced = QString::fromUtf8(typed.data(), static_cast<qsizetype>(typed.size()));
    for (QChar& c : spaced) {
        if (c.category() == QChar::Other_Control) c = QLatin1Char(' ');
    }
    std::vector<QString> words;
    for (const QString& word : spaced.simplified().split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
        if (!tokens_of(word).empty()) words.push_back(word);
    }
    return words;
}

TextPassage passage_around(const std::string& text, const std::vector<QString>& words) {
    const QString whole = QString::fromStdString(text);
    TextPassage passage;
    const auto found = places(whole, words, passage.words_found);
    qsizetype begin = 0;
    qsizetype end = whole.size();
    if (whole.size() > longest_passage) {
        const qsizetype first = found.empty() ? 0 : found.front().first;
        begin = std::min(cut_from(whole, first - before_the_match), first);
        end = std::min(cut_from(whole, begin + longest_passage), whole.size());
        // One word without end is cut where it stands.
        if (end > begin + 2 * longest_passage) end = begin + 2 * longest_passage;
        if (end < whole.size() && whole[end].isLowSurrogate()) ++end;
    }
    passage.text = whole.mid(begin, end - begin).toStdString();
    passage.cut_before = begin > 0;
    passage.cut_after = end < whole.size();
    for (const auto& [from, to] : found) {
        if (from < begin || to > end) continue;
        passage.marks.push_back({bytes(whole, begin, from), bytes(whole, from, to)});
    }
    return passage;
}

WordCount count_words(const std::string& text, const std::vector<QString>& words) {
    const std::vector<Token> tokens = tokens_of(QString::fromStdString(text));
    WordCount count{static_cast<int>(tokens.size()), {}};
    for (const QString& typed : words) {
        const std::vector<Token> word = tokens_of(typed);
        int times = 0;
        for (std::size_t at = 0; at < tokens.size(); ++at) {
            if (!word.empty() && stands_at(tokens, at, word)) ++times;
        }
        count.times.push_back(times);
    }
    return count;
}

} // namespace rodway
