#include "app/work/known_engines.h"

#include <QCoreApplication>
#include <QString>
#include <algorithm>

#include "app/first_run/new_build.h"
#include "app/work/describe_acts.h"
#include "app/work/typed_day.h"
#include "core/build/word_list.h"
#include "core/engine/set_up.h"
#include "db/build_records.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

struct KnownEngineActs {
    Q_DECLARE_TR_FUNCTIONS(KnownEngineActs)
};

bool same_name(const std::string& a, const std::string& b) {
    return QString::fromStdString(a).compare(QString::fromStdString(b), Qt::CaseInsensitive) == 0;
}

/// What was said, tidied. Errors: empty_text, not_a_date.
Result<Done> put_words(KnownEngine& engine, const KnownEngineWords& words) {
    const auto tidy = [](const std::optional<std::string>& text) {
        const std::string trimmed =
            QString::fromStdString(text.value_or(std::string())).trimmed().toStdString();
        return trimmed.empty() ? std::nullopt : std::optional(trimmed);
    };
    const auto name = tidy(words.name);
    if (!name) {
        return Error{ErrorCode::empty_text, "name", {}, {}, {}, {}};
    }
    const auto day = typed_day(tidy(words.measured_on), "measured_on");
    if (!day) {
        return day.error();
    }
    engine.name = *name;
    engine.measured_by = tidy(words.measured_by);
    engine.measured_on = *day;
    engine.note = tidy(words.note);
    return Done{};
}

} // namespace

Result<std::vector<KnownEngine>> known_engines(ShopFile& shop) {
    auto engines = load_records<KnownEngine>(shop, shop_wide);
    if (!engines) {
        return engines.error();
    }
    std::vector<KnownEngine> sorted = *engines;
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) {
        const int names = QString::fromStdString(a.name).compare(QString::fromStdString(b.name),
                                                                 Qt::CaseInsensitive);
        return names != 0 ? names < 0 : a.version > b.version;
    });
    return sorted;
}

Result<std::vector<KnownEngine>> newest_known_engines(ShopFile& shop) {
    const auto all = known_engines(shop);
    if (!all) {
        return all.error();
    }
    std::vector<KnownEngine> newest;
    for (const KnownEngine& engine : *all) {
        if (newest.empty() || !same_name(newest.back().name, engine.name)) {
            newest.push_back(engine);
        }
    }
    return newest;
}

Result<KnownEngine> find_known_engine(ShopFile& shop, const std::string& name,
                                      std::optional<int> version) {
    const auto all = known_engines(shop);
    if (!all) {
        return all.error();
    }
    QStringList names;
    for (const KnownEngine& engine : *all) {
        if (same_name(engine.name, name) && (!version || *version == engine.version)) {
            return engine;
        }
        names << QString("%1 (%2)").arg(QString::fromStdString(engine.name)).arg(engine.version);
    }
    return Error{
        ErrorCode::no_such_record, "known_engine", name, names.join(", ").toStdString(), {}, {}};
}

Result<std::int64_t> keep_known_engine(ShopSession& session, const KnownEngineWords& words,
                                       const SetUpFields& fields) {
    KnownEngine engine;
    engine.fields = fields;
    if (const auto put = put_words(engine, words); !put) {
        return put.error();
    }
    if (const auto made = make_engine(fields); !made) {
        return made.error();
    }
    const auto all = known_engines(session.shop());
    if (!all) {
        return all.error();
    }
    for (const KnownEngine& known : *all) {
        if (same_name(known.name, engine.name)) {
            engine.version = std::max(engine.version, known.version + 1);
        }
    }
    return session.create(
        RecordKind::known_engine,
        [&engine](std::int64_t id) {
            engine.id = id;
            return edits_to_create(engine);
        },
        KnownEngineActs::tr("known engine"));
}

Result<Done> change_known_engine(ShopSession& session, const KnownEngine& engine,
                                 const KnownEngineWords& words) {
    KnownEngine changed = engine;
    if (const auto put = put_words(changed, words); !put) {
        return put;
    }
    auto edits = edits_to_change(engine, changed);
    if (edits.empty()) {
        return Done{};
    }
    const auto act = session.act(std::move(edits), KnownEngineActs::tr("known engine"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

Result<Done> let_known_engine_go(ShopSession& session, const KnownEngine& engine) {
    auto edits = edits_to_remove(session.shop(), {RecordKind::known_engine, engine.id});
    if (!edits) {
        return edits.error();
    }
    const auto act = session.act(*edits, KnownEngineActs::tr("known engine let go"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

Result<std::int64_t> begin_from(ShopSession& session, std::int64_t build_id,
                                const KnownEngine& engine) {
    return add_set_up(session, build_id,
                      KnownEngineActs::tr("From %1, version %2")
                          .arg(QString::fromStdString(engine.name))
                          .arg(engine.version),
                      as_guesses(engine.fields));
}

Result<SetUpFields> fields_to_begin_with(ShopFile& shop, const SetUpFields& given,
                                         std::int64_t known_engine_id) {
    if (!given.empty() || known_engine_id == 0) {
        return given;
    }
    const auto all = known_engines(shop);
    if (!all) {
        return all.error();
    }
    for (const KnownEngine& engine : *all) {
        if (engine.id == known_engine_id) {
            return as_guesses(engine.fields);
        }
    }
    return Error{
        ErrorCode::no_such_record, "known_engine", std::to_string(known_engine_id), {}, {}, {}};
}

} // namespace rodway
