#pragma once

#include <QListWidget>
#include <optional>
#include <string>

#include "core/sheets/quantity.h"
#include "db/shop_file.h"

namespace rodway {

/// What the shop's other builds have of the quantity in hand: same engine family, or same customer,
/// the newest first.
class BeforePanel : public QListWidget {
    Q_OBJECT

  public:
    explicit BeforePanel(QWidget* parent = nullptr);
    /// `position`: as kept; its reading stands before the build's others.
    void show_builds(ShopFile& shop, std::int64_t build_id, const Quantity& quantity,
                     const std::string& position);
    void show_nothing();

  signals:
    void failed(const QString& text);
};

} // namespace rodway
