#pragma once

#include <QWidget>
#include <vector>

#include "core/clearance/variant.h"

class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace rodway {

/// Boxes in which a builder tries another lifter height, intake gasket or rod diameter. A plain
/// value is the new size; one with a sign is a change. An empty box leaves things as they stand.
class WhatIfPanel : public QWidget {
    Q_OBJECT

  public:
    explicit WhatIfPanel(QWidget* parent = nullptr);

    /// Shows the sizes as they stand, and one gasket box for each bank that has a flange.
    void set_engine(const Engine& as_it_stands);
    void clear();
    /// The boxes in order: lifter, rod, then one gasket per flange.
    [[nodiscard]] const std::vector<QLineEdit*>& boxes() const { return edits_; }

  signals:
    /// `refused` says which box could not be read, and then nothing is tried; else it is empty.
    void variant_changed(const rodway::Variant& variant, const QString& refused);

  private:
    struct Box {
        QLineEdit* edit;
        QLabel* trouble;
        double stands_mm; ///< size as it stands
    };
    Box add_box(const QString& label, double stands_mm, const QString& name);
    void read();
    /// Change in mm, nothing if the box is wrong; says so beside it.
    std::optional<double> change_of(Box& box);

    QVBoxLayout* rows_;
    std::optional<Box> lifter_;
    std::optional<Box> rod_;
    std::vector<std::optional<Box>> gaskets_; ///< one per bank
    std::vector<QLineEdit*> edits_;
    std::vector<double> shown_; ///< sizes the boxes were made for
};

} // namespace rodway
