#include "colour/grey_scale.h"

#include <array>

namespace otherskein::colour {

namespace {

struct Step {
    double from; ///< the border to the better step; belongs to this one
    const char* name;
};

// The pairs of ISO 105-A02 lie at ΔE*ab 0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6 and 13.6. The borders
// are the middles between them, written out because working them out would round some to the wrong
// side.
constexpr std::array<Step, 9> kSteps{{{0.0, "5"},
                                      {0.40, "4-5"},
                                      {1.25, "4"},
                                      {2.10, "3-4"},
                                      {2.95, "3"},
                                      {4.10, "2-3"},
                                      {5.80, "2"},
                                      {8.20, "1-2"},
                                      {11.60, "1"}}};

} // namespace

QString greyScaleStep(double deltaEab) {
    const Step* found = &kSteps.front();
    for (const Step& step : kSteps) {
        if (deltaEab >= step.from) {
            found = &step;
        }
    }
    return QString::fromLatin1(found->name);
}

} // namespace otherskein::colour
