#include "tests/app/month/end_record.h"

#include <QJsonArray>
#include <algorithm>
#include <map>
#include <stdexcept>

#include "app/work/account_acts.h"
#include "core/build/account_state.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/history.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"

namespace rodway::tests {
namespace {

struct KindToSay {
    RecordKind kind;
    const char* name;
    QStringList fields;
};

const QList<KindToSay>& kinds_to_say() {
    static const QList<KindToSay> kinds{
        {RecordKind::sign_off,
         "sign_offs",
         {"subject", "verdict", "signed_by", "signed_at", "withdrawn_at"}},
        {RecordKind::waiver,
         "waivers",
         {"subject", "gate_id", "reason", "customer_told", "waived_by", "waived_at", "until"}},
        {RecordKind::open_item,
         "open_items",
         {"kind", "title", "opened_by", "opened_at", "closed_by", "closed_at", "outcome",
          "customer_told", "part_id"}},
        {RecordKind::cure,
         "cures",
         {"place", "step_id", "full_minutes", "applied_by", "applied_at", "ended"}},
        {RecordKind::decision,
         "decisions",
         {"question", "choice", "reason", "decided_by", "decided_at"}},
        {RecordKind::part,
         "parts",
         {"item", "role", "count", "size", "supplier", "cost", "thread", "length", "temporary",
          "replaces_id", "ordered", "promised", "received", "measured", "fitted", "returned",
          "failed"}},
        {RecordKind::promise, "promises", {"promised", "reason", "told_at"}},
        {RecordKind::approval,
         "extras",
         {"subject", "amount", "answer", "by_whom", "manner", "asked_at", "answered_at"}},
        {RecordKind::account_line,
         "account_lines",
         {"paper", "text", "amount", "dated", "approval_id"}},
        {RecordKind::worked_time, "hours", {"person_id", "day", "minutes", "work"}}};
    return kinds;
}

template <typename Value>
Value got(Result<Value> answer) {
    if (!answer) {
        throw std::runtime_error("can't read: " + answer.error().field + ' ' +
                                 answer.error().value);
    }
    return std::move(answer).value();
}

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// What a record is called by whoever speaks of it.
QString called(const FieldTexts& fields) {
    for (const char* name : {"title", "item", "name", "subject"}) {
        if (const auto found = fields.find(name); found != fields.end()) {
            return text(found->second);
        }
    }
    return {};
}

RecordKind kind_of_reference(const std::string& field) {
    static const std::map<std::string, RecordKind> kinds{
        {"gate_id", RecordKind::gate},         {"step_id", RecordKind::step},
        {"part_id", RecordKind::part},         {"replaces_id", RecordKind::part},
        {"approval_id", RecordKind::approval}, {"person_id", RecordKind::person}};
    return kinds.at(field);
}

QJsonArray rows_of(const RecordTexts& of_build, const RecordTexts& of_shop, const KindToSay& kind) {
    QJsonArray rows;
    for (const auto& [ref, fields] : of_build) {
        // A sign-off of a stage is kept with one of each of its checks: those are counted apart.
        if (ref.kind != kind.kind ||
            (ref.kind == RecordKind::sign_off && fields.count("stage_id") == 0)) {
            continue;
        }
        QJsonObject row;
        for (const QString& name : kind.fields) {
            const auto found = fields.find(name.toStdString());
            if (found == fields.end()) {
                continue;
            }
            QString said = text(found->second);
            if (name.endsWith("_id")) {
                const RecordRef to{kind_of_reference(found->first), std::stoll(found->second)};
                const auto& there = to.kind == RecordKind::person ? of_shop : of_build;
                said = called(there.at(to));
            }
            row[name] = said;
        }
        rows.append(row);
    }
    return rows;
}

QJsonObject steps_of(ShopFile& shop, std::int64_t build_id) {
    QJsonObject ticked;
    int left_out = 0;
    int open = 0;
    for (const StageWithSteps& stage : got(stages_with_steps(shop, build_id))) {
        for (const Step& step : stage.steps) {
            if (step.ticked_by) {
                const QString who = text(*step.ticked_by);
                ticked[who] = ticked[who].toInt() + 1;
            }
            left_out += step.not_needed ? 1 : 0;
            open += !step.ticked_by && !step.not_needed ? 1 : 0;
        }
    }
    return {{"ticked", ticked}, {"not_needed", left_out}, {"open", open}};
}

/// How many readings of each quantity, and those of the rod that gave trouble.
QJsonObject readings_of(ShopFile& shop, std::int64_t build_id) {
    QJsonObject counts;
    QJsonArray rod;
    for (const Reading& reading : got(load_records<Reading>(shop, build_id))) {
        const QString quantity = text(reading.quantity);
        counts[quantity] = counts[quantity].toInt() + 1;
        if (reading.quantity == "rod_clearance" && reading.position == "3I") {
            rod.append(
                QString("%1 %2 %3")
                    .arg(text(reading.text), text(reading.taken_by), text(reading.taken_at)));
        }
    }
    return {{"counts", counts}, {"rod_clearance 3I", rod}};
}

QJsonObject account_of(ShopFile& shop, std::int64_t build_id) {
    const AccountState state = got(account_state(got(load_account(shop, build_id))));
    const auto money = [](Money amount) { return text(money_text(amount)); };
    return {{"estimate", money(state.estimate)},
            {"extras_approved", money(state.extras_approved)},
            {"extras_declined", money(state.extras_declined)},
            {"deposit", money(state.deposit)},
            {"invoice", money(state.invoice)},
            {"to_pay", money(state.to_pay)},
            {"questions_open", state.asked},
            {"minutes", state.minutes}};
}

/// What was taken back: by whom, when, and what it had written.
QJsonArray taken_back(ShopFile& shop, std::int64_t build_id) {
    QJsonArray undone;
    const std::vector<Act> acts = got(history_of_build(shop, build_id));
    for (const Act& act : acts) {
        if (!act.undoes) {
            continue;
        }
        const auto mistake = std::find_if(
            acts.begin(), acts.end(), [&](const Act& one) { return one.number == *act.undoes; });
        QJsonObject what{{"by", text(act.who)}, {"at", text(act.when_utc)}};
        for (const Edit& edit : mistake->edits) {
            if (edit.field == "text" || edit.field == "position" || edit.field == "quantity") {
                what[text(edit.field)] = text(edit.after.value_or(std::string()));
            }
        }
        undone.append(what);
    }
    return undone;
}

QJsonObject set_ups_of(ShopFile& shop, std::int64_t build_id) {
    const std::vector<SetUpRecord> set_ups = got(load_set_ups(shop, build_id));
    QJsonArray gaskets;
    for (const SetUpRecord& set_up : set_ups) {
        const auto found = set_up.fields.find("banks/left/flange/gasket");
        gaskets.append(found == set_up.fields.end() ? QString("none") : text(found->second.text));
    }
    return {{"intake_gasket_left", gaskets}};
}

QJsonObject build_record(ShopFile& shop, const Build& build, const RecordTexts& of_shop) {
    QJsonObject record{{"customer", text(build.customer)},
                       {"promised", text(build.promised.value_or(std::string()))},
                       {"put_away", text(build.archived.value_or(std::string()))},
                       {"plan", text(build.plan.value_or(std::string()))},
                       {"steps", steps_of(shop, build.id)},
                       {"readings", readings_of(shop, build.id)},
                       {"account", account_of(shop, build.id)},
                       {"set_ups", set_ups_of(shop, build.id)},
                       {"taken_back", taken_back(shop, build.id)}};
    const RecordTexts of_build = got(records_of_build(shop, build.id));
    for (const KindToSay& kind : kinds_to_say()) {
        record[kind.name] = rows_of(of_build, of_shop, kind);
    }
    return record;
}

} // namespace

QJsonObject end_record(const QString& shop_file, const QStringList& builds) {
    ShopFile shop = got(ShopFile::open_to_look(shop_file.toStdString()));
    const RecordTexts of_shop = got(records_of_build(shop, shop_wide));
    QJsonObject all;
    for (const Build& build : got(load_builds(shop))) {
        if (builds.contains(text(build.name))) {
            all[text(build.name)] = build_record(shop, build, of_shop);
        }
    }
    return all;
}

} // namespace rodway::tests
