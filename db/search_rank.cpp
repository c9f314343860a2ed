#include "db/search_rank.h"

#include <string>

#include "db/search_fields.h"
#include "db/search_words.h"

namespace rodway {

WordsInRecord words_in(const RecordRef& record, const FieldTexts& fields,
                       const std::vector<QString>& words) {
    constexpr double k1 = 1.2;
    constexpr double b = 0.75;
    constexpr double usual_words = 12.0;
    constexpr double weight_of_title = 4.0;
    const SearchedKind& searched = *searched_kind(record.kind);
    const auto text_at = [&fields](std::string_view field) {
        const auto found = fields.find(std::string(field));
        return found == fields.end() ? std::string() : found->second;
    };
    const WordCount title = count_words(text_at(searched.title), words);
    std::string text;
    for (const std::string_view name : searched.body) text += text_at(name) + '\n';
    const WordCount body = count_words(text, words);
    const double length = double(title.words + body.words) / usual_words;
    WordsInRecord found{true, 0.0};
    for (std::size_t word = 0; word < words.size(); ++word) {
        const double times = weight_of_title * title.times[word] + body.times[word];
        found.all = found.all && times > 0.0;
        found.rank += times * (k1 + 1.0) / (times + k1 * (1.0 - b + b * length));
    }
    return found;
}

} // namespace rodway
