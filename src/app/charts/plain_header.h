#pragma once

#include <QHeaderView>

#include <map>

namespace otherskein::app {

/// A header whose words stand exactly over what is drawn below them.
class PlainHeader : public QHeaderView {
  public:
    explicit PlainHeader(const QString& accessibleName, QWidget* parent = nullptr);

    /// Free space beside the words of a column, in reading direction.
    void setInsets(int column, int leading, int trailing) {
        m_insets[column] = {leading, trailing};
    }

  protected:
    void paintSection(QPainter* painter, const QRect& rect, int column) const override;
    [[nodiscard]] QSize sizeHint() const override;

  private:
    std::map<int, std::pair<int, int>> m_insets;
};

} // namespace otherskein::app
