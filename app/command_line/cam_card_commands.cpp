#include <QCoreApplication>

#include "app/command_line/build_commands.h"
#include "app/command_line/cam_options.h"
#include "app/command_line/commands.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/timing_words.h"
#include "core/cam/typed_timing.h"

namespace rodway {
namespace {

struct CamCardCommands {
    Q_DECLARE_TR_FUNCTIONS(CamCardCommands)
};

struct Options {
    std::string card;
    std::string advance;
    bool json = false;
};

/// What a card's text gives: events and what follows from them, or centrelines alone.
struct ReadCard {
    CardEvents events;
    CardFigures figures;
};

CardFigures figures_of(const TypedCentreline& typed) {
    CardFigures figures;
    figures.intake_centreline_crank_deg = typed.centreline_crank_deg;
    figures.lobe_separation_cam_deg = typed.lobe_separation_cam_deg;
    figures.advance_crank_deg = typed.advance_crank_deg;
    if (typed.lobe_separation_cam_deg && typed.advance_crank_deg) {
        figures.exhaust_centreline_crank_deg =
            *typed.lobe_separation_cam_deg + *typed.advance_crank_deg;
    }
    return figures;
}

Result<ReadCard> read(const std::string& text) {
    const auto card = parse_card(text);
    if (card) {
        const auto figures = timing_from_events(card->events());
        return figures ? Result<ReadCard>(ReadCard{card->events(), *figures}) : figures.error();
    }
    const auto centreline = parse_centreline(text, ValveKind::intake);
    if (centreline) {
        return ReadCard{{}, figures_of(*centreline)};
    }
    // A stroke stands between the two valves of a card only.
    return text.find('/') == std::string::npos ? centreline.error() : card.error();
}

Result<ReadCard> moved_by(const ReadCard& card, double by_crank_deg) {
    if (card.events.intake_opens_crank_deg) {
        const CardEvents events = advanced(card.events, by_crank_deg);
        const auto figures = timing_from_events(events);
        return figures ? Result<ReadCard>(ReadCard{events, *figures}) : figures.error();
    }
    ReadCard moved = card;
    const auto shift = [](std::optional<double>& value, double by_deg) {
        if (value) {
            *value += by_deg;
        }
    };
    shift(moved.figures.intake_centreline_crank_deg, -by_crank_deg);
    shift(moved.figures.exhaust_centreline_crank_deg, by_crank_deg);
    shift(moved.figures.advance_crank_deg, by_crank_deg);
    return moved;
}

QJsonObject card_json(const ReadCard& card) {
    const CardEvents& events = card.events;
    const CardFigures& figures = card.figures;
    return {
        {"intake_opens_btdc_crank_deg", number_or_null(events.intake_opens_crank_deg)},
        {"intake_closes_abdc_crank_deg", number_or_null(events.intake_closes_crank_deg)},
        {"exhaust_opens_bbdc_crank_deg", number_or_null(events.exhaust_opens_crank_deg)},
        {"exhaust_closes_atdc_crank_deg", number_or_null(events.exhaust_closes_crank_deg)},
        {"intake_duration_crank_deg", number_or_null(figures.intake_duration_crank_deg)},
        {"exhaust_duration_crank_deg", number_or_null(figures.exhaust_duration_crank_deg)},
        {"intake_centreline_crank_deg", number_or_null(figures.intake_centreline_crank_deg)},
        {"exhaust_centreline_crank_deg", number_or_null(figures.exhaust_centreline_crank_deg)},
        {"lobe_separation_cam_deg", number_or_null(figures.lobe_separation_cam_deg)},
        {"overlap_crank_deg", number_or_null(figures.overlap_crank_deg)},
        {"advance_crank_deg", number_or_null(figures.advance_crank_deg)},
    };
}

void print_card(const ReadCard& card) {
    const CardEvents& events = card.events;
    const CardFigures& figures = card.figures;
    const auto valve = [](const QString& name, CamEvent opens,
                          const std::optional<double>& opens_deg, CamEvent closes,
                          const std::optional<double>& closes_deg,
                          const std::optional<double>& duration_deg) {
        if (opens_deg && closes_deg && duration_deg) {
            print("  " + CamCardCommands::tr("%1 opens %2, closes %3, duration %4")
                             .arg(name, words::cam_event(opens, *opens_deg),
                                  words::cam_event(closes, *closes_deg),
                                  words::crank_degrees(*duration_deg)));
        }
    };
    valve(CamCardCommands::tr("Intake"), CamEvent::intake_opens, events.intake_opens_crank_deg,
          CamEvent::intake_closes, events.intake_closes_crank_deg,
          figures.intake_duration_crank_deg);
    valve(CamCardCommands::tr("Exhaust"), CamEvent::exhaust_opens, events.exhaust_opens_crank_deg,
          CamEvent::exhaust_closes, events.exhaust_closes_crank_deg,
          figures.exhaust_duration_crank_deg);
    const auto line = [](const QString& text) { print("  " + text); };
    if (figures.intake_centreline_crank_deg) {
        line(CamCardCommands::tr("Intake centreline %1 ATDC")
                 .arg(words::crank_degrees(*figures.intake_centreline_crank_deg)));
    }
    if (figures.exhaust_centreline_crank_deg) {
        line(CamCardCommands::tr("Exhaust centreline %1 BTDC")
                 .arg(words::crank_degrees(*figures.exhaust_centreline_crank_deg)));
    }
    if (figures.lobe_separation_cam_deg) {
        line(CamCardCommands::tr("Lobe separation %1")
                 .arg(words::cam_degrees(*figures.lobe_separation_cam_deg)));
    }
    if (figures.advance_crank_deg) {
        line(CamCardCommands::tr("Cam stands %1").arg(words::advance(*figures.advance_crank_deg)));
    }
    if (figures.overlap_crank_deg) {
        line(CamCardCommands::tr("Overlap: %1").arg(words::overlap(*figures.overlap_crank_deg)));
    }
}

ExitCode show_card(const Options& options) {
    const auto card = read(options.card);
    if (!card) {
        return refuse(card.error());
    }
    const auto by = typed_advance(options.advance);
    if (!by) {
        return refuse(by.error());
    }
    const auto moved = moved_by(*card, by->value_or(0.0));
    if (!moved) {
        return refuse(moved.error());
    }
    const bool asked = by->has_value();
    if (options.json) {
        print_json({{"format", "rodway-cam-card"},
                    {"version", 1},
                    {"text", QString::fromStdString(options.card)},
                    {"card", card_json(*card)},
                    {"moved_by_crank_deg", number_or_null(*by)},
                    {"moved", asked ? QJsonValue(card_json(*moved)) : QJsonValue()}});
        return ExitCode::done;
    }
    print(CamCardCommands::tr("The card “%1”, in crank degrees:")
              .arg(QString::fromStdString(options.card)));
    print_card(*card);
    if (asked) {
        print(CamCardCommands::tr("Moved by %1:").arg(words::advance(**by)));
        print_card(*moved);
    }
    if (card->events.intake_opens_crank_deg) {
        print(
            CamCardCommands::tr("Centrelines are midpoints of the events; on an asymmetric lobe "
                                "full lift falls elsewhere."));
    }
    return ExitCode::done;
}

} // namespace

void add_cam_card_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    auto* card = program.add_subcommand(
        "read-card",
        CamCardCommands::tr("What a cam card says: 20-60/60-20, 31/77/63/29, 110+4").toStdString());
    card->add_option("card", options->card, CamCardCommands::tr("The card as typed").toStdString())
        ->required();
    add_json_option(*card, options->json);
    add_advance_option(*card, options->advance);
    card->callback([=, &outcome] { outcome.code = show_card(*options); });
}

} // namespace rodway
