#include "app/bench/bench_model.h"

#include <QTextDocument>
#include <algorithm>

#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/words/today_words.h"
#include "core/build/utc_time.h"

namespace rodway {
namespace {

constexpr std::size_t most_pages = 20;

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString two_lines(const QString& first, const QString& second) {
    return second.isEmpty() ? first : first + QLatin1Char('\n') + second;
}

/// A tip that shows names as they are written.
QString plain_tip(const QString& words) {
    return Qt::mightBeRichText(words) ? Qt::convertFromPlainText(words) : words;
}

} // namespace

BenchModel::BenchModel(BenchStandings& standings, QObject* parent)
    : QAbstractTableModel(parent), standings_(standings) {
    connect(&standings_, &BenchStandings::found, this, [this](qint64 build_id) {
        if (const int row = row_of(build_id); row >= 0) {
            emit dataChanged(index(row, rail_column), index(row, next_column));
        }
    });
}

void BenchModel::show(ShopFile* shop, BenchRequest request, int around) {
    std::map<int, Page> pages;
    int total = 0;
    std::int64_t newest = 0;
    request.limit = page_size;
    if (shop != nullptr) {
        const int wanted = std::max(around, 0) / page_size;
        for (const int number : {0, wanted, wanted + 1}) {
            request.offset = number * page_size;
            if (pages.contains(number) || (number > 0 && request.offset >= total)) {
                continue;
            }
            auto read = bench_page(*shop, request);
            if (!read) {
                emit failed(words::error_text(read.error()));
                return; // what was read before stays in sight
            }
            ++pages_read_;
            total = read->total;
            newest = read->newest_shop_act;
            pages[number] = std::move(std::move(read).value().rows);
        }
    }
    const bool other_rows = total != total_ || shop != shop_;
    if (other_rows) {
        beginResetModel();
    }
    shop_ = shop;
    request_ = std::move(request);
    total_ = total;
    newest_shop_act_ = newest;
    pages_ = std::move(pages);
    latest_.clear();
    for (const auto& [number, page] : pages_) {
        latest_.push_back(number);
    }
    if (other_rows) {
        endResetModel();
    } else if (total_ > 0) {
        emit dataChanged(index(0, 0), index(total_ - 1, column_count - 1));
    }
}

const BenchModel::Page& BenchModel::page(int number) const {
    const auto there = pages_.find(number);
    latest_.remove(number);
    latest_.push_front(number);
    if (there != pages_.end()) {
        return there->second;
    }
    BenchRequest request = request_;
    request.offset = number * page_size;
    request.limit = page_size;
    auto read = bench_page(*shop_, request);
    ++pages_read_;
    if (!read) {
        // Kept empty, or every stroke of the painter would ask for it again.
        emit failed(words::error_text(read.error()));
    }
    while (latest_.size() > most_pages) {
        pages_.erase(latest_.back());
        latest_.pop_back();
    }
    return pages_[number] = read ? std::move(std::move(read).value().rows) : Page();
}

const BenchRow* BenchModel::row(int row) const {
    if (shop_ == nullptr || row < 0 || row >= total_) {
        return nullptr;
    }
    const Page& rows = page(row / page_size);
    const auto at = static_cast<std::size_t>(row % page_size);
    return at < rows.size() ? &rows[at] : nullptr;
}

const BenchStanding* BenchModel::standing(int row) const {
    const BenchRow* shown = this->row(row);
    return shown == nullptr || shown->build.archived ? nullptr : standings_.find(version(row));
}

BuildVersion BenchModel::version(int row) const {
    const BenchRow* shown = this->row(row);
    return shown == nullptr ? BuildVersion{}
                            : BuildVersion{shown->build.id, shown->newest_act, newest_shop_act_};
}

int BenchModel::row_of(std::int64_t build_id) const {
    for (const auto& [number, rows] : pages_) {
        for (std::size_t at = 0; at < rows.size(); ++at) {
            if (rows[at].build.id == build_id) {
                return number * page_size + static_cast<int>(at);
            }
        }
    }
    return -1;
}

int BenchModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : total_;
}

int BenchModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : column_count;
}

QVariant BenchModel::data(const QModelIndex& index, int role) const {
    const BenchRow* shown_row = row(index.row());
    if (shown_row == nullptr) {
        return {};
    }
    switch (role) {
        case Qt::DisplayRole:
            return shown(index.row(), index.column());
        case Qt::AccessibleTextRole:
            return told(index.row(), index.column());
        case Qt::ToolTipRole:
            return plain_tip(index.column() == build_column ? build_tip(*shown_row)
                                                            : told(index.row(), index.column()));
        case rail_role:
            return QVariant::fromValue(rail(index.row()));
        case held_role:
            return held_lines(index.row());
        case late_role: {
            const auto days = days_left(*shown_row);
            return days && *days < 0;
        }
        default:
            return {};
    }
}

QVariant BenchModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation == Qt::Vertical) {
        return {};
    }
    if (role == Qt::ToolTipRole && section == rail_column) {
        return rail_legend();
    }
    if (role == Qt::TextAlignmentRole) {
        return static_cast<int>(Qt::AlignLeft | Qt::AlignVCenter);
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    switch (section) {
        case build_column:
            return tr("Build");
        case rail_column:
            return tr("Stages");
        case held_column:
            return tr("Held up by");
        case next_column:
            return tr("Next to do");
        case promised_column:
            return tr("Promised");
        default:
            return {};
    }
}

/// What stands in a cell, in one or two lines.
QString BenchModel::shown(int row, int column) const {
    const BenchRow& shown = *this->row(row);
    const BenchStanding* stands = standing(row);
    switch (column) {
        case build_column:
            return two_lines(text(shown.build.name), tr("%1 · %2").arg(text(shown.build.customer),
                                                                       text(shown.build.engine)));
        case rail_column: {
            const Rail stages = rail(row);
            const auto in_hand = std::find_if(stages.begin(), stages.end(),
                                              [](const RailStage& stage) { return stage.in_hand; });
            return in_hand != stages.end() ? in_hand->title
                   : stages.isEmpty()      ? tr("no stages")
                                           : tr("no step is open");
        }
        case held_column:
            return held_lines(row).join(QLatin1Char('\n'));
        case next_column:
            if (stands != nullptr) {
                return two_lines(stands->next, stands->next_stage);
            }
            return shown.next_step ? two_lines(text(*shown.next_step),
                                               text(shown.next_stage.value_or(std::string())))
                                   : QString();
        case promised_column:
            return promised(shown);
        default:
            return {};
    }
}

/// The whole of it, for a tip and for those who can't see the cell.
QString BenchModel::told(int row, int column) const {
    switch (column) {
        case rail_column:
            return rail_words(rail(row));
        case held_column:
            return held_words(row).join(QLatin1Char('\n'));
        default:
            return shown(row, column);
    }
}

QString BenchModel::build_tip(const BenchRow& row) const {
    const Build& build = row.build;
    QStringList lines{text(build.name), text(build.customer), text(build.engine)};
    if (build.job_number) {
        lines << tr("Job number %1").arg(text(*build.job_number));
    }
    if (row.changed_at) {
        lines << tr("Last changed %1 by %2")
                     .arg(words::time_of(*row.changed_at),
                          text(row.changed_by.value_or(std::string())));
    }
    return lines.join(QLatin1Char('\n'));
}

QStringList BenchModel::held_words(int row) const {
    const BenchRow& shown = *this->row(row);
    if (shown.build.archived) {
        return {tr("Put away on %1").arg(words::day_of(*shown.build.archived))};
    }
    const BenchStanding* stands = standing(row);
    if (stands == nullptr) {
        const auto trouble = standings_.trouble(shown.build.id);
        return {trouble ? tr("Not worked out: %1").arg(words::error_text(*trouble)) : tr("…")};
    }
    QStringList lines;
    for (const HeldBy& held : stands->held_by) {
        lines << held.words;
    }
    if (lines.isEmpty()) {
        lines << tr("Nothing");
    }
    if (stands->waived == 1) {
        lines << tr("1 more is waived");
    } else if (stands->waived > 1) {
        lines << tr("%1 more are waived").arg(stands->waived);
    }
    return lines;
}

QStringList BenchModel::held_lines(int row) const {
    const BenchStanding* stands = standing(row);
    const QStringList lines = held_words(row);
    if (stands == nullptr || stands->held_by.size() <= 1) {
        return {lines.front()};
    }
    return stands->held_by.size() == 2
               ? lines.mid(0, 2)
               : QStringList{lines.front(), tr("and %1 more").arg(stands->held_by.size() - 1)};
}

QString BenchModel::promised(const BenchRow& row) const {
    if (!row.build.promised) {
        return {};
    }
    const QString day = words::day(*row.build.promised);
    const auto days = days_left(row);
    if (!days || *days > near_days) {
        return day;
    }
    if (*days == -1) {
        return two_lines(day, tr("late by a day"));
    }
    return two_lines(day, *days < 0 ? tr("late by %1 days").arg(-*days) : words::days_off(*days));
}

/// Of a build that is put away no day counts any more.
std::optional<std::int64_t> BenchModel::days_left(const BenchRow& row) const {
    return row.build.promised && !row.build.archived
               ? days_between(request_.today, *row.build.promised)
               : std::nullopt;
}

Rail BenchModel::rail(int row) const {
    const BenchStanding* stands = standing(row);
    return stands != nullptr ? stands->rail : rail_of(*this->row(row));
}

} // namespace rodway
