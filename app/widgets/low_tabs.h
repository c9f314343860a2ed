#pragma once

#include <QTabWidget>

namespace rodway {

/// Tabs that ask for no more height than their pages need at least: lists in them are pressed
/// together before the whole place scrolls.
class LowTabs : public QTabWidget {
  public:
    using QTabWidget::QTabWidget;

    [[nodiscard]] bool hasHeightForWidth() const override { return false; }
    [[nodiscard]] QSize sizeHint() const override { return minimumSizeHint(); }
};

} // namespace rodway
