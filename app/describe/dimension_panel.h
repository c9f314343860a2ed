#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "app/describe/describe_model.h"
#include "app/describe/size_box.h"
#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

class QComboBox;
class QGridLayout;
class QVBoxLayout;

namespace rodway {

/// The boxes of one step of describing an engine: for each dimension one box for each bank, for
/// intake and exhaust, or for each valve; and what else belongs to the step.
class DimensionPanel : public QWidget {
    Q_OBJECT

  public:
    DimensionPanel(DescribeStep step, const DescribeModel* model, QWidget* parent = nullptr);

    /// What is typed goes into this set-up. Boxes are made anew only where others are needed.
    void take(ShopSession* session, const std::optional<SetUpRecord>& set_up);
    /// Shows what stands, and what each size is worth.
    void refresh();
    /// Goes to the box of a field; false if it isn't here.
    bool go_to(const std::string& path);
    void go_to_first();
    [[nodiscard]] DescribeStep step() const { return step_; }
    /// The box of a field, or nothing.
    [[nodiscard]] SizeBox* box(const std::string& path) const;

  signals:
    /// A box has the keyboard: what it is for, and whose.
    void lit(const QString& dimension, const QString& owner);
    /// Enter in the last box.
    void finished();
    void failed(const QString& text);
    void lift_table_wanted();

  private:
    struct Entry {
        SizeBox* box;
        std::string path;
        const EngineDimension* dimension; ///< null for a field of its own
        std::string owner;
    };
    struct Choice {
        QComboBox* combo;
        std::string path;
        std::string owner;
        std::string name;
    };
    void rebuild();
    void add_rows(const std::vector<const EngineDimension*>& dimensions,
                  const std::vector<std::string>& owners);
    void add_gaps();
    void add_plain(QGridLayout* grid, int row, const QString& label, const std::string& leaf);
    void add_choice(QGridLayout* grid, int row, const QString& label, const std::string& name,
                    const std::vector<std::pair<QString, QString>>& words);
    void add_of_step();
    QGridLayout* new_grid(const std::vector<std::string>& owners);
    SizeBox* add_box(const EngineDimension& dimension, const std::string& owner,
                     const std::string& beside, bool small);
    void enter_order(SizeBox* box);
    [[nodiscard]] bool is_wanted(const EngineDimension& dimension) const;
    [[nodiscard]] bool any_chosen(const std::string& name, const char* word) const;
    [[nodiscard]] std::string layout_key() const;

    DescribeStep step_;
    const DescribeModel* model_;
    ShopSession* session_ = nullptr;
    std::optional<SetUpRecord> set_up_;
    std::string key_; ///< what the boxes were made for
    QVBoxLayout* layout_;
    QWidget* content_ = nullptr;
    QVBoxLayout* rows_ = nullptr;
    std::vector<Entry> entries_;
    std::vector<Choice> choices_;
};

} // namespace rodway
