#pragma once

#include <QStringList>
#include <QWidget>
#include <functional>
#include <vector>

#include "core/clearance/variant.h"

class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

/// Boxes in which a builder tries another lifter height, rod, ratio, adjuster or intake gasket. A
/// plain value is the new size; one with a sign is a change. An empty box leaves things as they
/// stand. They stand in one row, to be at hand whatever else is looked at.
class WhatIfPanel : public QWidget {
    Q_OBJECT

  public:
    explicit WhatIfPanel(QWidget* parent = nullptr);

    /// Shows the sizes as they stand, and one gasket box for each bank that has a flange.
    void set_engine(const Engine& as_it_stands);
    void clear();
    /// What is said of what is being tried, at the end of the row.
    void set_answer(const QString& text, bool trying);
    /// Puts a variant into the boxes, and tries it.
    void put(const Variant& variant);
    void focus_first();
    /// The boxes in order: lifter, rod, ratio, adjuster, then one gasket per flange.
    [[nodiscard]] const std::vector<QLineEdit*>& boxes() const { return edits_; }

  signals:
    /// `refused` says which box could not be read, and then nothing is tried; else it is empty.
    void variant_changed(const rodway::Variant& variant, const QString& refused);
    void keep_wanted();

  private:
    struct Box {
        QLineEdit* edit;
        QString name;
        std::vector<double> stands; ///< mm, or a ratio, of every train or of the bank
        bool ratio = false;
        std::function<double&(Variant&)> of; ///< what the box changes
    };
    void add_box(Box box, const QString& tip);
    void add_boxes(const Engine& engine);
    void add_train_boxes(const Engine& engine);
    void read();
    /// Nothing if the box is wrong; then why is in `trouble`.
    static std::optional<double> change_of(const Box& box, QString& trouble);

    QHBoxLayout* row_;
    QLabel* answer_;
    QLabel* trouble_;
    QPushButton* keep_;
    QPushButton* back_;
    std::vector<Box> boxes_;
    std::vector<QLineEdit*> edits_;
    QStringList read_;                       ///< what was typed when the boxes were read last
    std::vector<std::vector<double>> shown_; ///< sizes the boxes were made for
};

} // namespace rodway
