// Solves the project beside the event loop: the newest request wins, nobody waits.
#pragma once

#include <QObject>
#include <QThreadPool>
#include <atomic>
#include <cstdint>
#include <memory>
#include <optional>

#include "catalogue/catalogue.h"
#include "desk/solved.h"

namespace kerfdraft::desk {

class Live : public QObject {
  Q_OBJECT

 public:
  explicit Live(std::shared_ptr<const catalogue::Catalogue> catalogue, QObject* parent = nullptr);
  ~Live() override;

  /// Solves; answers come through solved() and judged(). A request that a newer one overtook gives no answer.
  void request(std::shared_ptr<const shop::Project> project, std::optional<shop::State> trial);

  /// The newest answer, or null before the first.
  const std::shared_ptr<const Solved>& latest() const { return latest_; }
  bool isBusy() const { return answered_ < asked_; }
  /// For tests: lets the event loop run until everything asked for is judged.
  void waitUntilIdle() const;

 signals:
  void solved();  ///< latest() has flows and margins
  void judged();  ///< latest() has bands and verdict too

 private:
  void answer(std::shared_ptr<const Solved> solved, bool last);

  std::shared_ptr<const catalogue::Catalogue> catalogue_;
  std::shared_ptr<const Solved> latest_;
  std::atomic<std::uint64_t> newest_{0};
  std::uint64_t asked_ = 0;
  std::uint64_t answered_ = 0;
  QThreadPool pool_;
};

}  // namespace kerfdraft::desk
