#include "app/work/kept_variants.h"

#include <QCoreApplication>
#include <algorithm>
#include <iterator>

#include "app/command_line/variant_options.h"
#include "app/words/variant_words.h"
#include "core/build/part_check.h"
#include "core/clearance/variant_fields.h"
#include "core/engine/length_text.h"
#include "core/engine/set_up.h"
#include "db/build_records.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

struct KeptVariants {
    Q_DECLARE_TR_FUNCTIONS(KeptVariants)
};

/// What the question of such a decision begins with. It never changes: shop files have it.
constexpr std::string_view question_begins = "variant: ";

void append(std::vector<Edit>& all, std::vector<Edit> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

Error empty(const char* field) {
    return Error{ErrorCode::empty_text, field, {}, {}, {}, {}};
}

Result<std::vector<Decision>> variant_decisions(ShopFile& shop, std::int64_t build_id) {
    const auto found = load_records<Decision>(shop, build_id);
    if (!found) {
        return found.error();
    }
    std::vector<Decision> of_variants;
    std::copy_if(
        found->begin(), found->end(), std::back_inserter(of_variants),
        [](const Decision& decision) { return decision.question.starts_with(question_begins); });
    return of_variants;
}

std::string name_of(const Decision& decision) {
    return decision.question.substr(question_begins.size());
}

} // namespace

std::string variant_sizes_text(const Variant& variant, const EngineLayout& layout) {
    std::string text;
    const auto add = [&](const std::string& word, const std::string& number) {
        if (number != "0") {
            const std::string sign = number.starts_with('-') ? "" : "+";
            text += (text.empty() ? "" : ", ") + word + "=" + sign + number;
        }
    };
    const auto add_mm = [&](const std::string& word, double mm) {
        // A size names its unit: a bare whole number would be asked after.
        const std::string number = length_text(mm, "in");
        add(word, number == "0" ? number : number + " in");
    };
    add_mm("lifter", variant.lifter_taller_mm);
    add_mm("rod-diameter", variant.rod_thicker_mm);
    add_mm("rod-length", variant.rod_longer_mm);
    add_mm("ball-arm", variant.ball_arm_longer_mm);
    add("ratio", rounded_text(variant.ratio_more, 1e5));
    add_mm("adjuster", variant.adjuster_in_more_mm);
    add_mm("lash", variant.lash_more_mm);
    add_mm("lobe-lift", variant.lobe_lift_more_mm);
    for (std::size_t bank = 0; bank < layout.banks.size(); ++bank) {
        const auto thicker = [&](const std::vector<double>& list) {
            return bank < list.size() ? list[bank] : 0.0;
        };
        add_mm(layout.banks[bank].name + "-gasket", thicker(variant.gasket_thicker_mm));
        add_mm(layout.banks[bank].name + "-head-gasket", thicker(variant.head_gasket_thicker_mm));
    }
    return text;
}

Result<std::vector<KeptVariant>> kept_variants(ShopFile& shop, std::int64_t build_id,
                                               const Engine& engine) {
    const auto decisions = variant_decisions(shop, build_id);
    if (!decisions) {
        return decisions.error();
    }
    std::vector<KeptVariant> kept;
    for (const Decision& decision : *decisions) {
        const auto typed = typed_variant("variant: " + decision.choice, engine);
        kept.push_back({decision.id, name_of(decision), decision.choice, decision.reason,
                        decision.decided_by, decision.decided_at,
                        typed
                            ? Result<NamedVariant>(NamedVariant{name_of(decision), typed->variant})
                            : Result<NamedVariant>(typed.error())});
    }
    return kept;
}

Result<std::int64_t> keep_variant(ShopSession& session, std::int64_t build_id, const Engine& engine,
                                  const QString& name, const Variant& variant, const QString& why) {
    const auto plain_name = kept_line(name.toStdString(), "name");
    const auto reason = kept_line(why.toStdString(), "why");
    if (!plain_name || !reason) {
        return !plain_name ? plain_name.error() : reason.error();
    }
    if (plain_name->empty()) {
        return empty("name");
    }
    Decision decision;
    decision.build_id = build_id;
    decision.question = std::string(question_begins) + *plain_name;
    decision.choice = variant_sizes_text(variant, engine.layout);
    if (decision.choice.empty()) {
        return empty("sizes");
    }
    const auto there = variant_decisions(session.shop(), build_id);
    if (!there) {
        return there.error();
    }
    const bool twice = std::any_of(there->begin(), there->end(), [&](const Decision& other) {
        return other.question == decision.question;
    });
    if (twice) {
        return Error{ErrorCode::duplicate_field, *plain_name, *plain_name, {}, {}, {}};
    }
    decision.reason = reason->empty() ? std::nullopt : std::optional(*reason);
    decision.decided_by = session.who().toStdString();
    decision.decided_at = session.now();
    return session.create(
        RecordKind::decision,
        [&](std::int64_t id) {
            decision.id = id;
            return edits_to_create(decision);
        },
        KeptVariants::tr("variant “%1”").arg(QString::fromStdString(*plain_name)));
}

Result<Done> drop_variant(ShopSession& session, std::int64_t build_id, std::int64_t decision_id) {
    const auto there = variant_decisions(session.shop(), build_id);
    if (!there) {
        return there.error();
    }
    for (const Decision& decision : *there) {
        if (decision.id != decision_id) {
            continue;
        }
        const auto edits =
            edits_to_remove(session.shop(), RecordRef{RecordKind::decision, decision_id});
        const auto act =
            edits ? session.act(*edits, KeptVariants::tr("variant “%1” dropped")
                                            .arg(QString::fromStdString(name_of(decision))))
                  : Result<Act>(edits.error());
        return act ? Result<Done>(Done{}) : Result<Done>(act.error());
    }
    return Error{ErrorCode::no_such_record, "variant", std::to_string(decision_id), {}, {}, {}};
}

Result<std::int64_t> take_variant_over(ShopSession& session, std::int64_t build_id,
                                       const NamedVariant& named, const QString& why) {
    const auto reason = kept_line(why.toStdString(), "why");
    if (!reason) {
        return reason.error();
    }
    if (reason->empty()) {
        return empty("why");
    }
    const auto set_up = newest_set_up(session.shop(), build_id);
    if (!set_up || !*set_up) {
        return set_up ? Error{ErrorCode::missing_field, "set_up", {}, {}, {}, {}} : set_up.error();
    }
    const auto engine = make_engine((*set_up)->fields);
    const auto fields = engine ? fields_with_variant((*set_up)->fields, *engine, named.variant)
                               : Result<SetUpFields>(engine.error());
    const auto decision_id = fields ? new_id(session.shop(), RecordKind::decision)
                                    : Result<std::int64_t>(fields.error());
    if (!decision_id) {
        return decision_id.error();
    }
    const QString name = QString::fromStdString(named.name);
    Decision decision;
    decision.id = *decision_id;
    decision.build_id = build_id;
    decision.question = KeptVariants::tr("Which variant?").toStdString();
    decision.choice = KeptVariants::tr("%1: %2")
                          .arg(name, words::variant(named.variant, engine->layout))
                          .toStdString();
    decision.reason = *reason;
    decision.decided_by = session.who().toStdString();
    decision.decided_at = session.now();
    const QString set_up_name =
        KeptVariants::tr("%1, %2").arg(QString::fromStdString((*set_up)->name), name);
    return session.create(
        RecordKind::set_up,
        [&](std::int64_t id) {
            std::vector<Edit> edits =
                edits_to_create(SetUpRecord{id, build_id, set_up_name.toStdString(), *fields});
            append(edits, edits_to_create(decision));
            return edits;
        },
        KeptVariants::tr("variant “%1” taken over").arg(name));
}

} // namespace rodway
