#pragma once

#include <QAbstractTableModel>
#include <QString>
#include <list>
#include <map>
#include <optional>
#include <vector>

#include "app/bench/bench_standings.h"
#include "app/work/build_state.h"
#include "db/bench_rows.h"

namespace rodway {

/// The builds of the Bench, one a row. Rows are read from the shop page by page as somebody looks
/// at them; what holds a build up and what is to be done next is `BenchStandings`'.
class BenchModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { build_column, rail_column, held_column, next_column, promised_column };
    static constexpr int column_count = promised_column + 1;
    static constexpr int page_size = 50;
    enum Role {
        rail_role = Qt::UserRole + 1, ///< Rail
        held_role,                    ///< QStringList: what is shown of it, at most two lines
        late_role,                    ///< bool: the promised day has passed
    };

    /// The standings outlive this.
    explicit BenchModel(BenchStandings& standings, QObject* parent = nullptr);

    /// What is shown, of which shop (null: none), as of which moment. Reads the first page and
    /// those of `around`, the row seen at the top before.
    void show(ShopFile* shop, BenchRequest request, int around = 0);
    /// A day to which a promise counts as near.
    static constexpr int near_days = 7;

    [[nodiscard]] const BenchRequest& request() const { return request_; }
    [[nodiscard]] int total() const { return total_; }
    /// Null if there is no such row, or it can't be read.
    [[nodiscard]] const BenchRow* row(int row) const;
    [[nodiscard]] const BenchStanding* standing(int row) const;
    [[nodiscard]] BuildVersion version(int row) const;
    /// Among the pages that are read; -1 if it isn't there.
    [[nodiscard]] int row_of(std::int64_t build_id) const;
    /// How many pages were read since this was made.
    [[nodiscard]] int pages_read() const { return pages_read_; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

  signals:
    /// A page can't be read.
    void failed(const QString& text) const;

  private:
    using Page = std::vector<BenchRow>;
    const Page& page(int number) const;
    [[nodiscard]] QString shown(int row, int column) const;
    [[nodiscard]] QString told(int row, int column) const;
    [[nodiscard]] QString build_tip(const BenchRow& row) const;
    [[nodiscard]] QStringList held_lines(int row) const;
    [[nodiscard]] QStringList held_words(int row) const;
    [[nodiscard]] QString promised(const BenchRow& row) const;
    [[nodiscard]] Rail rail(int row) const;
    [[nodiscard]] std::optional<std::int64_t> days_left(const BenchRow& row) const;

    BenchStandings& standings_;
    ShopFile* shop_ = nullptr;
    BenchRequest request_;
    int total_ = 0;
    std::int64_t newest_shop_act_ = 0;
    // Read while somebody looks, so that looking doesn't change what there is to be seen.
    mutable std::map<int, Page> pages_;
    mutable std::list<int> latest_; ///< pages, those looked at last first
    mutable int pages_read_ = 0;
};

} // namespace rodway
