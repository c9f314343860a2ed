#include "app/work/describe_acts.h"

#include <QCoreApplication>

#include "app/first_run/new_build.h"
#include "app/words/describe_words.h"
#include "core/describe/description.h"
#include "core/describe/typed_size.h"
#include "core/engine/set_up_fields.h"
#include "db/typed_value_text.h"

namespace rodway {
namespace {

struct DescribeActs {
    Q_DECLARE_TR_FUNCTIONS(DescribeActs)
};

constexpr std::array<std::pair<const char*, DoubtSource>, 4> source_words{{
    {"measured", DoubtSource::measured},
    {"from_the_box", DoubtSource::from_the_box},
    {"assumed", DoubtSource::assumed},
    {"common_practice", DoubtSource::common_practice},
}};

const TypedValue* find_value(const SetUpFields& fields, const std::string& path) {
    const auto found = fields.find(path);
    return found == fields.end() ? nullptr : &found->second;
}

/// The edits from what a record holds to what is wanted, field by field.
class FieldEdits {
  public:
    explicit FieldEdits(GeometryRecord record) : record_(std::move(record)) {}
    void want(const std::string& path, const std::optional<TypedValue>& value) {
        const TypedValue* now = find_value(record_.fields, path);
        Edit edit{record_.record, path, std::nullopt, std::nullopt};
        if (now != nullptr) {
            edit.before = to_edit_text(*now);
        }
        if (value) {
            edit.after = to_edit_text(*value);
        }
        if (edit.before != edit.after) {
            edits_.push_back(std::move(edit));
        }
    }
    Result<Done> keep(ShopSession& session, const QString& what) {
        if (edits_.empty()) {
            return Done{};
        }
        const auto act = session.act(std::move(edits_), what);
        return act ? Result<Done>(Done{}) : Result<Done>(act.error());
    }

  private:
    GeometryRecord record_;
    std::vector<Edit> edits_;
};

} // namespace

std::string described_text(const SetUpFields& fields, const std::string& owner,
                           const EngineDimension& dimension) {
    const TypedValue* value = find_value(fields, described_path(owner, dimension));
    if (value == nullptr) {
        return {};
    }
    TypedSize size{*value, std::nullopt, DoubtSource::measured};
    if (const TypedValue* doubt = find_value(fields, described_doubt_path(owner, dimension))) {
        size.doubt = *doubt;
    }
    if (const TypedValue* source = find_value(fields, described_source_path(owner, dimension))) {
        for (const auto& [word, known] : source_words) {
            if (source->text == word) {
                size.source = known;
            }
        }
    }
    return size_text(size);
}

Result<Done> keep_described_size(ShopSession& session, const GeometryRecord& record,
                                 const std::string& owner, const EngineDimension& dimension,
                                 const std::string& text) {
    FieldEdits edits(record);
    std::optional<TypedValue> value;
    std::optional<TypedValue> doubt;
    std::optional<TypedValue> source;
    if (text.find_first_not_of(' ') != std::string::npos) {
        const auto size = read_typed_size(dimension, text);
        if (!size) {
            return size.error();
        }
        value = size->value;
        doubt = size->doubt;
        if (size->source != DoubtSource::measured) {
            for (const auto& [word, known] : source_words) {
                if (known == size->source) {
                    source = TypedValue{word, {}};
                }
            }
        }
    }
    edits.want(described_path(owner, dimension), value);
    edits.want(described_doubt_path(owner, dimension), doubt);
    edits.want(described_source_path(owner, dimension), source);
    return edits.keep(session, words::dimension_of(dimension, owner));
}

Result<Done> keep_set_up_field(ShopSession& session, const GeometryRecord& record,
                               const std::string& path, const std::optional<TypedValue>& value) {
    FieldEdits edits(record);
    edits.want(path, value);
    const auto parts = path_parts(path);
    if (value && parts.size() == 4 && parts[0] == "lobes" && parts[2] == "card") {
        edits.want("lobes/" + parts[1] + "/lift_table", std::nullopt);
    }
    if (path == "doubt/assumed") {
        edits.want("doubt/assumed_for", std::nullopt); // stated by a person, whatever is described
    }
    return edits.keep(session, DescribeActs::tr("set-up"));
}

Result<Done> keep_set_up_fields(ShopSession& session, const GeometryRecord& record,
                                const std::map<std::string, std::optional<TypedValue>>& values,
                                const QString& what) {
    FieldEdits edits(record);
    for (const auto& [path, value] : values) {
        edits.want(path, value);
    }
    return edits.keep(session, what);
}

Result<Done> keep_outline(ShopSession& session, std::int64_t build_id,
                          const std::optional<SetUpRecord>& set_up, const EngineOutline& outline) {
    const auto fields = outline_fields(outline);
    if (!fields) {
        return fields.error();
    }
    if (!set_up) {
        const auto id = add_set_up(session, build_id, DescribeActs::tr("As described"), *fields);
        return id ? Result<Done>(Done{}) : Result<Done>(id.error());
    }
    const SetUpFields wanted = with_outline(set_up->fields, *fields);
    FieldEdits edits(geometry_of(*set_up));
    for (const auto& [path, value] : set_up->fields) {
        if (!wanted.contains(path)) {
            edits.want(path, std::nullopt);
        }
    }
    for (const auto& [path, value] : wanted) {
        edits.want(path, value);
    }
    return edits.keep(session, DescribeActs::tr("layout"));
}

SetUpFields as_guesses(const SetUpFields& fields) {
    SetUpFields guesses = fields;
    for (const auto& [path, value] : fields) {
        const auto parts = path_parts(path);
        if (parts.size() != 4 || parts[0] != "described" ||
            (parts[3] != "size" && parts[3] != "angle")) {
            continue;
        }
        const EngineDimension* dimension = dimension_called(parts[2]);
        if (dimension == nullptr) {
            continue;
        }
        guesses[described_source_path(parts[1], *dimension)] = {"assumed", {}};
        // A ± that was typed counts on only if it is the larger.
        const std::string doubt = described_doubt_path(parts[1], *dimension);
        if (const TypedValue* stated = find_value(fields, doubt)) {
            EngineDimension of_doubt = *dimension;
            of_doubt.low = 0.0;
            of_doubt.high = dimension->high - dimension->low;
            const auto known = dimension_value(of_doubt, doubt, *stated);
            if (known && *known < dimension->assumed_doubt) {
                guesses.erase(doubt);
            }
        }
    }
    return guesses;
}

} // namespace rodway
