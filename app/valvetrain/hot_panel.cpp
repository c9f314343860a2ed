#include "app/valvetrain/hot_panel.h"

#include <QLabel>

#include "app/valvetrain/row_table.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/hot_words.h"
#include "app/words/lengths.h"
#include "app/words/stated_words.h"
#include "core/engine/hot_fields.h"

namespace rodway {
namespace {

struct Answer {
    Result<HotStated> stated;
    Result<HotAndCold> found;
};

Answer work_out(const Engine& engine, const SetUpFields& fields, const std::stop_token& stop) {
    const auto stated = read_hot(fields, engine);
    if (!stated) {
        return {stated.error(), stated.error()};
    }
    return {*stated, hot_and_cold(engine, *stated, stop)};
}

QString sentence_start(const QString& words) {
    return words.left(1).toUpper() + words.mid(1);
}

StatedColumn of_parts(const QString& title, const std::string& leaf, const QString& hint) {
    StatedColumn column{title, {}};
    for (const HotPart part : hot_parts()) {
        column.boxes.push_back({std::string("hot/parts/") + hot_part_name(part) + leaf,
                                sentence_start(words::hot_part(part)), hint});
    }
    return column;
}

StatedColumn of_lengths(const Engine& engine) {
    StatedColumn column{
        HotPanel::tr("Lengths"),
        {{"hot/cold_temperature", HotPanel::tr("Measured at"), "20 C (68 F)"},
         {"hot/parts/head_gasket/thickness", HotPanel::tr("Head gasket, thick"), ".040 in"},
         {"hot/parts/head_gasket/expansion", HotPanel::tr("Head gasket, expansion"), "12 ppm/K"},
         {"hot/parts/intake_gasket/expansion", HotPanel::tr("Intake gasket, expansion"),
          "30 ppm/K"},
         {"hot/valves/intake/seat_to_tip", HotPanel::tr("Intake valve, seat to tip"), "4.900 in"},
         {"hot/valves/exhaust/seat_to_tip", HotPanel::tr("Exhaust valve, seat to tip"),
          "4.900 in"}}};
    for (const Bank& bank : engine.layout.banks) {
        column.boxes.push_back(
            {"hot/banks/" + bank.name + "/deck_height",
             HotPanel::tr("Crank to deck, %1").arg(QString::fromStdString(bank.name)), "9.980 in"});
    }
    for (std::size_t at = 0; at < engine.flanges.size(); ++at) {
        const std::string& name = engine.layout.banks[at].name;
        if (engine.flanges[at]) {
            column.boxes.push_back(
                {"hot/banks/" + name + "/intake_face",
                 HotPanel::tr("Crank to intake face, %1").arg(QString::fromStdString(name)),
                 "2.100 in"});
        }
    }
    return column;
}

} // namespace

HotPanel::HotPanel(ValvetrainModel* model, QWidget* parent)
    : EstimatePanel(
          model,
          {"hot",
           tr("Warming the engine…"),
           tr("State metals and warmth…"),
           tr("Lash and least clearance of every valve, cold and hot"),
           {tr("Valve"), tr("Lash"), tr("Lash hot"), tr("Cold"), tr("Hot"), tr("Verdict hot")}},
          parent) {
    table_->set_numbers({1, 2, 3, 4});
    table_->set_width(5, 96);
}

void HotPanel::forget() {
    found_.reset();
}

void HotPanel::ask() {
    request_.ask<Answer>(
        [engine = model_->engine(), fields = *model_->fields()](const std::stop_token& stop) {
            return work_out(*engine, fields, stop);
        },
        [this](const Answer& answer) {
            work_->end();
            if (!answer.stated || !answer.found) {
                const Error& error = answer.stated ? answer.found.error() : answer.stated.error();
                show_rows(words::error_text(error), {});
                return;
            }
            found_ = *answer.found;
            std::vector<QStringList> rows;
            const auto thou = [](const std::optional<double>& mm) {
                return mm ? words::inches(*mm).remove(" in") : tr("–");
            };
            for (const HotClearance& valve : found_->valves) {
                rows.push_back(
                    {words::valve(valve.valve), thou(valve.cold_lash_mm),
                     words::hot_range(valve.hot_lash_mm).remove(" in"),
                     thou(valve.cold ? std::optional(valve.cold->clearance_mm) : std::nullopt),
                     words::hot_range(valve.hot_least_mm).remove(" in"),
                     words::hot_verdict(valve)});
            }
            show_rows(words::hot_and_cold(*found_, answer.stated->cold_degC), rows);
        });
    work_->begin();
}

QString HotPanel::of_valve() const {
    if (found_) {
        for (const HotClearance& valve : found_->valves) {
            if (model_->selected() == valve.valve) {
                return tr("%1: %2").arg(words::valve(valve.valve),
                                        words::hot_of(valve, *model_->engine()));
            }
        }
    }
    return {};
}

std::vector<ValvePosition> HotPanel::rows() const {
    std::vector<ValvePosition> rows;
    if (found_) {
        for (const HotClearance& valve : found_->valves) {
            rows.push_back(valve.valve);
        }
    }
    return rows;
}

void HotPanel::state(ShopSession& session, const SetUpRecord& set_up) {
    if (!model_->as_it_stands()) {
        return;
    }
    StatedDialog dialog(
        session, set_up, tr("Metals, warmth and the lengths that grow"),
        tr("How warm each part runs on the whole, in °C, or with an F behind it; for a gasket of "
           "no metal its expansion instead. Lengths from the crank's axis: to the deck along the "
           "cylinders, to the head's intake face square to that face."),
        {of_parts(tr("Made of"), "/metal", {}), of_parts(tr("Runs at"), "/temperature", "90 C"),
         of_lengths(*model_->as_it_stands())},
        tr("metals and warmth"), this);
    if (dialog.exec() == QDialog::Accepted) {
        emit said(tr("Stated in the set-up in hand; Undo takes it back."));
    }
}

} // namespace rodway
