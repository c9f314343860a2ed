#pragma once

#include <QDialog>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

class TypedForm;

/// One column of boxes for fields of a set-up, under a title.
struct StatedColumn {
    struct Box {
        std::string path;
        QString label;
        QString hint; ///< of a line to type into
    };
    QString title;
    std::vector<Box> boxes;
};

/// States fields of a set-up, or takes them away where a box is emptied: what was typed is kept as
/// it was typed, as one act.
class StatedDialog : public QDialog {
    Q_OBJECT

  public:
    /// `what` names the act in the history.
    StatedDialog(ShopSession& session, SetUpRecord set_up, const QString& title,
                 const QString& about, const std::vector<StatedColumn>& columns,
                 const QString& what, QWidget* parent = nullptr);

    [[nodiscard]] TypedForm& form() { return *form_; }
    void accept() override;

  private:
    QWidget* add_box(const StatedColumn::Box& box);
    [[nodiscard]] std::string typed(const std::string& path) const;

    ShopSession& session_;
    SetUpRecord set_up_;
    QString what_;
    TypedForm* form_;
    std::map<std::string, std::string> shown_; ///< what stands in each box as it is stored
};

} // namespace rodway
