#include <QFontMetricsF>
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "core/base/assert.h"
#include "render/cylinder_plan.h"

namespace rodway {
namespace {

constexpr double least_text_px = 8.0;

double pixel_size(const QFont& font) {
    // Painters of windows, pictures and documents all count 96 to the inch.
    return font.pixelSize() > 0 ? font.pixelSize() : font.pointSizeF() * 96.0 / 72.0;
}

QFont at_pixels(QFont font, double pixels) {
    font.setPixelSize(std::max(1, static_cast<int>(pixels)));
    return font;
}

/// Valves of one bank that stand in one line along the crank; indices into the content, front
/// first.
struct Row {
    double across_mm = 0.0; ///< from the bank's line, in y
    std::vector<std::size_t> valves;
    double across_px = 0.0; ///< downwards from the bank's line
};

struct PlanBank {
    double y_mm = 0.0;
    std::vector<std::size_t> cylinders;
    std::vector<Row> rows;
    double centre_px = 0.0;
    double above_px = 0.0; ///< what stands above and below the bank's line
    double below_px = 0.0;
    bool numbers_above = true;
};

std::vector<PlanBank> banks_of(const PlanContent& content) {
    std::map<double, PlanBank, std::greater<>> by_y; // from the top of the picture down
    for (std::size_t at = 0; at < content.cylinders.size(); ++at) {
        PlanBank& bank = by_y[content.cylinders[at].y_mm];
        bank.y_mm = content.cylinders[at].y_mm;
        bank.cylinders.push_back(at);
    }
    std::vector<PlanBank> banks;
    banks.reserve(by_y.size());
    for (auto& [y, bank] : by_y) {
        banks.push_back(std::move(bank));
    }
    return banks;
}

/// Sorts a bank's valves into rows: a step across of more than a fifth of the bore begins a new
/// one.
void find_rows(PlanBank& bank, const PlanContent& content) {
    std::vector<std::size_t> valves;
    double radius = 1.0;
    for (const std::size_t at : bank.cylinders) {
        radius = std::max(radius, content.cylinders[at].radius_mm);
        for (std::size_t valve = 0; valve < content.valves.size(); ++valve) {
            if (content.valves[valve].position.cylinder == content.cylinders[at].number) {
                valves.push_back(valve);
            }
        }
    }
    std::sort(valves.begin(), valves.end(), [&](std::size_t a, std::size_t b) {
        return content.valves[a].y_mm > content.valves[b].y_mm;
    });
    for (std::size_t at = 0; at < valves.size(); ++at) {
        const double y = content.valves[valves[at]].y_mm;
        if (at == 0 || content.valves[valves[at - 1]].y_mm - y > 0.4 * radius) {
            bank.rows.push_back({y - bank.y_mm, {}, 0.0});
        }
        bank.rows.back().valves.push_back(valves[at]);
    }
    for (Row& row : bank.rows) {
        std::sort(row.valves.begin(), row.valves.end(), [&](std::size_t a, std::size_t b) {
            return content.valves[a].x_mm < content.valves[b].x_mm;
        });
    }
}

/// Moves ascending places as little as possible (least squares) until neighbours are `gap` apart
/// and all lie between the bounds: isotonic regression of place minus its share of gaps.
std::vector<double> spread(std::vector<double> places, double gap, double low, double high) {
    struct Block {
        double sum;
        int count;
        [[nodiscard]] double mean() const { return sum / count; }
    };
    std::vector<Block> blocks;
    for (std::size_t at = 0; at < places.size(); ++at) {
        blocks.push_back({places[at] - gap * static_cast<double>(at), 1});
        while (blocks.size() > 1 && blocks[blocks.size() - 2].mean() > blocks.back().mean()) {
            blocks[blocks.size() - 2].sum += blocks.back().sum;
            blocks[blocks.size() - 2].count += blocks.back().count;
            blocks.pop_back();
        }
    }
    const double last = high - gap * (static_cast<double>(places.size()) - 1.0);
    std::size_t at = 0;
    for (const Block& block : blocks) {
        for (int step = 0; step < block.count; ++step, ++at) {
            places[at] =
                std::clamp(block.mean(), low, std::max(low, last)) + gap * static_cast<double>(at);
        }
    }
    return places;
}

/// The plan's measures while it is laid out.
struct Measures {
    QRectF body; ///< right of the front label
    double x_from_mm = 0.0;
    double x_scale = 1.0;
    double x_origin = 0.0;
    double bore_scale = 1.0;
    double slot = 0.0; ///< along a row, per valve
    double sign = 0.0;
    double text = 0.0;
    double widest = 0.0; ///< value at that text size
    double number = 0.0; ///< side of a cylinder number's tag
    bool by_turns = false;

    [[nodiscard]] double strip() const { return text + 6.0; }
    /// Values by turns stand beyond the letters, so that no value meets a neighbour's letter.
    [[nodiscard]] double above_sign() const { return (by_turns ? 2.0 : 1.0) * strip(); }
    [[nodiscard]] double stack() const { return sign + above_sign() + strip(); }
    /// Least distance of neighbours in a row.
    [[nodiscard]] double gap() const {
        return std::min(slot, std::max(sign + 8.0, by_turns ? 0.5 * widest + 4.0 : widest + 6.0));
    }
    [[nodiscard]] double x(double mm) const { return x_origin + (mm - x_from_mm) * x_scale; }
};

std::size_t longest_row(const std::vector<PlanBank>& banks) {
    std::size_t longest = 1;
    for (const PlanBank& bank : banks) {
        for (const Row& row : bank.rows) {
            longest = std::max(longest, row.valves.size());
        }
    }
    return longest;
}

void measure_text(Measures& measures, const PlanContent& content, const QFont& font) {
    const double wanted = pixel_size(font);
    double widest = 0.0;
    const QFontMetricsF metrics(at_pixels(font, wanted));
    for (const PlanValve& valve : content.valves) {
        widest = std::max(widest, metrics.horizontalAdvance(valve.value));
    }
    constexpr double between = 4.0;
    measures.by_turns = widest + between > measures.slot;
    const double room = (measures.by_turns ? 2.0 : 1.0) * measures.slot - between;
    measures.text =
        widest > room ? std::max(least_text_px, std::floor(wanted * room / widest)) : wanted;
    measures.widest = widest * measures.text / wanted;
}

Measures measure(const QRectF& place, const PlanContent& content,
                 const std::vector<PlanBank>& banks, const QFont& font, double front_width) {
    Measures measures;
    const double margin = std::clamp(0.015 * place.width(), 3.0, 12.0);
    measures.body = place.adjusted(front_width + margin, margin, -margin, -margin);
    double to_mm = -1e300;
    measures.x_from_mm = 1e300;
    for (const PlanCylinder& cylinder : content.cylinders) {
        measures.x_from_mm = std::min(measures.x_from_mm, cylinder.x_mm - cylinder.radius_mm);
        to_mm = std::max(to_mm, cylinder.x_mm + cylinder.radius_mm);
    }
    measures.x_scale = measures.body.width() / std::max(1.0, to_mm - measures.x_from_mm);
    measures.slot = measures.body.width() / static_cast<double>(longest_row(banks));
    const double usual =
        std::clamp(std::min(place.width() / 17.0, place.height() / 11.0), 14.0, 44.0);
    measures.sign = std::clamp(measures.slot - 6.0, 6.0, usual);
    measure_text(measures, content, font);
    measures.number = std::max(1.45 * pixel_size(font), 15.0);
    measures.bore_scale = measures.x_scale;
    return measures;
}

/// Heights of one bank at the measures' bore scale: bores, rows kept apart, numbers outboard.
void stack_bank(PlanBank& bank, const PlanContent& content, const Measures& measures) {
    double radius = 0.0;
    for (const std::size_t at : bank.cylinders) {
        radius = std::max(radius, content.cylinders[at].radius_mm * measures.bore_scale);
    }
    std::vector<double> places;
    for (const Row& row : bank.rows) {
        places.push_back(-row.across_mm * measures.bore_scale);
    }
    places = spread(places, measures.stack() + 2.0, -1e6, 1e6);
    bank.above_px = bank.below_px = radius;
    for (std::size_t at = 0; at < bank.rows.size(); ++at) {
        bank.rows[at].across_px = places[at];
        bank.above_px = std::max(bank.above_px, 0.5 * measures.stack() - places[at]);
        bank.below_px = std::max(bank.below_px, 0.5 * measures.stack() + places[at]);
    }
    (bank.numbers_above ? bank.above_px : bank.below_px) += measures.number + 4.0;
}

double bank_gap(const Measures& measures) {
    return std::max(12.0, 0.05 * measures.body.height());
}

double total_height(const std::vector<PlanBank>& banks, const Measures& measures) {
    return std::accumulate(
        banks.begin(), banks.end(), bank_gap(measures) * (static_cast<double>(banks.size()) - 1.0),
        [](double sum, const PlanBank& bank) { return sum + bank.above_px + bank.below_px; });
}

/// Makes bores, then signs, then text smaller until everything stands below each other in the body.
void fit_height(std::vector<PlanBank>& banks, const PlanContent& content, Measures& measures) {
    constexpr double least_bore_px = 16.0;
    double radius_mm = 1.0;
    for (const PlanCylinder& cylinder : content.cylinders) {
        radius_mm = std::max(radius_mm, cylinder.radius_mm);
    }
    for (int attempt = 0; attempt < 300; ++attempt) {
        for (PlanBank& bank : banks) {
            stack_bank(bank, content, measures);
        }
        if (total_height(banks, measures) <= measures.body.height()) {
            break;
        }
        if (measures.bore_scale * radius_mm > least_bore_px) {
            measures.bore_scale *= 0.96;
        } else if (measures.sign > 8.0) {
            measures.sign *= 0.96;
        } else if (measures.text > least_text_px) {
            measures.text -= 1.0;
        } else {
            break;
        }
    }
    // Bores far apart in a wide place would look like an engine that nobody builds.
    const double wide = measures.body.width();
    measures.x_scale = std::min(measures.x_scale, 1.6 * measures.bore_scale);
    double from = 1e300;
    double to = -1e300;
    for (const PlanCylinder& cylinder : content.cylinders) {
        from = std::min(from, cylinder.x_mm - cylinder.radius_mm);
        to = std::max(to, cylinder.x_mm + cylinder.radius_mm);
    }
    measures.x_origin = measures.body.left() + 0.5 * (wide - (to - from) * measures.x_scale);
}

void place_row(PlanLayout& layout, const PlanContent& content, const PlanBank& bank, const Row& row,
               const Measures& measures) {
    std::vector<double> places;
    for (const std::size_t valve : row.valves) {
        places.push_back(measures.x(content.valves[valve].x_mm));
    }
    const double half = 0.5 * (measures.by_turns ? measures.slot : measures.gap());
    places =
        spread(places, measures.gap(), measures.body.left() + half, measures.body.right() - half);
    const double top = bank.centre_px + row.across_px - 0.5 * measures.stack();
    const double sign_top = top + measures.above_sign();
    const double text_width = (measures.by_turns ? 2.0 : 1.0) * measures.slot - 2.0;
    // Texts keep clear of the ring round the selected sign.
    constexpr double ring = 3.0;
    const double height = measures.strip() - ring;
    for (std::size_t at = 0; at < row.valves.size(); ++at) {
        const bool value_above = measures.by_turns && at % 2 == 1;
        const std::size_t valve = row.valves[at];
        const double value_top = value_above ? top : sign_top + measures.sign + ring;
        layout.valves[valve] =
            QRectF(places[at] - 0.5 * measures.sign, sign_top, measures.sign, measures.sign);
        layout.values[valve] = QRectF(places[at] - 0.5 * text_width, value_top, text_width, height);
        layout.letters[valve] = QRectF(places[at] - 0.5 * measures.slot,
                                       sign_top - measures.strip(), measures.slot, height);
    }
}

void place_bank(PlanLayout& layout, const PlanContent& content, const PlanBank& bank,
                const Measures& measures) {
    for (const std::size_t at : bank.cylinders) {
        const PlanCylinder& cylinder = content.cylinders[at];
        const double radius = cylinder.radius_mm * measures.bore_scale;
        const double x = measures.x(cylinder.x_mm);
        layout.cylinders[at] =
            QRectF(x - radius, bank.centre_px - radius, 2.0 * radius, 2.0 * radius);
        const double top = bank.numbers_above ? bank.centre_px - bank.above_px
                                              : bank.centre_px + bank.below_px - measures.number;
        layout.numbers[at] =
            QRectF(x - 0.5 * measures.number, top, measures.number, measures.number);
    }
    for (const Row& row : bank.rows) {
        place_row(layout, content, bank, row, measures);
    }
}

} // namespace

PlanLayout lay_out_plan(const QRectF& place, const PlanContent& content, const QFont& font) {
    PlanLayout layout;
    layout.cylinders.resize(content.cylinders.size());
    layout.numbers.resize(content.cylinders.size());
    layout.valves.resize(content.valves.size());
    layout.letters.resize(content.valves.size());
    layout.values.resize(content.valves.size());
    const QFontMetricsF metrics(at_pixels(font, pixel_size(font)));
    const double front_width = std::clamp(metrics.horizontalAdvance(content.front_label) + 12.0,
                                          40.0, 0.2 * place.width());
    layout.front = QRectF(place.left(), place.top(), front_width, place.height());
    layout.crank_y = place.center().y();
    layout.text_px = pixel_size(font);
    if (content.cylinders.empty()) {
        return layout;
    }
    std::vector<PlanBank> banks = banks_of(content);
    for (std::size_t at = 0; at < banks.size(); ++at) {
        find_rows(banks[at], content);
        banks[at].numbers_above = at + 1 < banks.size() || banks.size() == 1;
    }
    Measures measures = measure(place, content, banks, font, front_width);
    fit_height(banks, content, measures);
    layout.text_px = measures.text;
    double y = measures.body.center().y() - 0.5 * total_height(banks, measures);
    for (std::size_t at = 0; at < banks.size(); ++at) {
        PlanBank& bank = banks[at];
        bank.centre_px = y + bank.above_px;
        y = bank.centre_px + bank.below_px;
        // The crank runs between the banks, or under the only one.
        if (banks.size() == 1) {
            layout.crank_y = bank.centre_px;
        } else if (at + 1 == (banks.size() + 1) / 2) {
            layout.crank_y = y + 0.5 * bank_gap(measures);
        }
        y += bank_gap(measures);
        place_bank(layout, content, bank, measures);
    }
    return layout;
}

std::optional<ValvePosition> valve_at(const QPointF& point, const QRectF& place,
                                      const PlanContent& content, const QFont& font) {
    const PlanLayout layout = lay_out_plan(place, content, font);
    std::optional<ValvePosition> nearest;
    double least = 1e300;
    for (std::size_t at = 0; at < content.valves.size(); ++at) {
        const QPointF off = point - layout.valves[at].center();
        const double distance = std::hypot(off.x(), off.y());
        const bool hit = layout.valves[at].adjusted(-3.0, -3.0, 3.0, 3.0).contains(point) ||
                         layout.values[at].contains(point) || layout.letters[at].contains(point);
        if (hit && distance < least) {
            least = distance;
            nearest = content.valves[at].position;
        }
    }
    return nearest;
}

} // namespace rodway
