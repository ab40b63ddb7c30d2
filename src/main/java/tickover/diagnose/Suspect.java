package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * A component with a fault that it could have, and the rhythm that would betray it.
 *
 * @param component a pulley's name, {@code belt:NAME}, {@code injector-N}, {@code valve-train} or
 *     {@code engine}
 * @param fault what could be wrong
 * @param group which weights rank it
 * @param detail which of several: the bearing's label or the shaft it sits on; may be empty
 * @param ownPoint the point at which it should be strongest; empty if there is none
 * @param rhythm where its lines stand
 */
record Suspect(
        String component,
        Fault fault,
        FaultGroup group,
        String detail,
        String ownPoint,
        Rhythm rhythm) {
    Suspect {
        Objects.requireNonNull(component, "component");
        Objects.requireNonNull(fault, "fault");
        Objects.requireNonNull(group, "group");
        Objects.requireNonNull(detail, "detail");
        Objects.requireNonNull(ownPoint, "ownPoint");
        Objects.requireNonNull(rhythm, "rhythm");
    }

    /**
     * Where lines are sought, in orders per crank turn.
     *
     * @param fromOrders lowest base order
     * @param toOrders highest base order
     * @param centreOrders most probable base order
     * @param spreadRatio standard deviation around it, as a share
     * @param sidebandOrders distances of sidebands that the fault makes; empty if it makes none
     */
    record Rhythm(
            double fromOrders,
            double toOrders,
            double centreOrders,
            double spreadRatio,
            List<Double> sidebandOrders) {
        Rhythm {
            sidebandOrders = List.copyOf(sidebandOrders);
            if (!(fromOrders > 0 && toOrders >= fromOrders && spreadRatio > 0)) {
                throw new IllegalArgumentException(
                        "fromOrders="
                                + fromOrders
                                + ", toOrders="
                                + toOrders
                                + ", spreadRatio="
                                + spreadRatio
                                + ", need 0 < from <= to and a spread > 0");
            }
        }

        static Rhythm around(double centreOrders, double spreadRatio, List<Double> sidebandOrders) {
            double reach = Suspects.REACH_SPREADS * spreadRatio;
            return new Rhythm(
                    centreOrders * (1 - reach),
                    centreOrders * (1 + reach),
                    centreOrders,
                    spreadRatio,
                    sidebandOrders);
        }
    }
}
