package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Which orders are fitted together, and over segments of what length. */
final class LinePlan {
    /** Shortest segment, turns. */
    private static final double SHORTEST_TURNS = 32;

    /** Two lines are told apart over a segment of this many turns divided by their distance. */
    private static final double APART = 2;

    /** With this many the fit hardly amplifies noise; taken where the record is long enough. */
    private static final double COMFORTABLE = 4;

    /** The engine's own lines stand at multiples of this order. */
    private static final double ENGINE_ORDERS = 0.5;

    /** Two orders closer than this are one. */
    private static final double SAME_ORDERS = 1e-9;

    private LinePlan() {}

    /** Orders measured over segments of one length. */
    static final class Group {
        private final double segmentTurns;
        private final int[] wanted;
        private final double[] fitted;
        private final int[] places;

        private Group(double segmentTurns, int[] wanted, double[] fitted, int[] places) {
            this.segmentTurns = segmentTurns;
            this.wanted = wanted;
            this.fitted = fitted;
            this.places = places;
        }

        double segmentTurns() {
            return segmentTurns;
        }

        /** Indices into the orders that were asked for. */
        int[] wanted() {
            return wanted;
        }

        /** Orders to fit together, none closer than can be told apart. */
        double[] fitted() {
            return fitted;
        }

        /** Index into {@link #fitted} of wanted order w. */
        int place(int w) {
            return places[w];
        }
    }

    /** Plans the measurement: orders of like segment length go together as far as they can. */
    static List<Group> groups(double[] orders, double recordTurns) {
        boolean[] done = new boolean[orders.length];
        List<Group> groups = new ArrayList<>();
        for (int i = 0; i < orders.length; i++) {
            if (done[i]) {
                continue;
            }
            double turns = segmentTurns(orders[i], orders, recordTurns);
            List<Double> fitted = new ArrayList<>();
            List<Integer> wanted = new ArrayList<>();
            List<Integer> places = new ArrayList<>();
            for (int j = i; j < orders.length; j++) {
                if (!done[j] && segmentTurns(orders[j], orders, recordTurns) == turns) {
                    int same = indexOf(orders[j], fitted);
                    if (same >= 0 || distance(orders[j], fitted) >= APART / turns) {
                        done[j] = true;
                        wanted.add(j);
                        places.add(same >= 0 ? same : fitted.size());
                        if (same < 0) {
                            fitted.add(orders[j]);
                        }
                    }
                }
            }
            addOthers(orders, turns, fitted);
            groups.add(
                    new Group(
                            turns,
                            wanted.stream().mapToInt(Integer::intValue).toArray(),
                            fitted.stream().mapToDouble(Double::doubleValue).toArray(),
                            places.stream().mapToInt(Integer::intValue).toArray()));
        }
        return groups;
    }

    /** Other lines near enough to leak into those that are fitted. */
    private static void addOthers(double[] orders, double turns, List<Double> fitted) {
        List<Double> near = new ArrayList<>();
        for (double order : orders) {
            near.add(order);
        }
        for (double order : List.copyOf(fitted)) {
            double below = Math.floor(order / ENGINE_ORDERS) * ENGINE_ORDERS;
            near.add(below);
            near.add(below + ENGINE_ORDERS);
        }
        int wanted = fitted.size();
        double[] main = fitted.stream().mapToDouble(Double::doubleValue).toArray();
        for (double order : near) {
            double leak = distance(order, Arrays.copyOf(main, wanted));
            if (order > 0 && leak < 5 / turns && distance(order, fitted) >= APART / turns) {
                fitted.add(order);
            }
        }
    }

    /** An order with the engine's own lines that leak into it. */
    static double[] withNeighbours(double order, double segmentTurns) {
        List<Double> fitted = new ArrayList<>(List.of(order));
        addOthers(new double[0], segmentTurns, fitted);
        return fitted.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static double segmentTurns(double order, double[] orders, double recordTurns) {
        double nearest = ENGINE_ORDERS;
        for (double other : orders) {
            nearest = nearer(nearest, Math.abs(other - order), recordTurns);
        }
        double below = Math.floor(order / ENGINE_ORDERS + SAME_ORDERS) * ENGINE_ORDERS;
        nearest = nearer(nearest, order - below, recordTurns);
        nearest = nearer(nearest, below + ENGINE_ORDERS - order, recordTurns);
        // Low orders need segments of some cycles, for their own mirror image lies near.
        double need = Math.max(COMFORTABLE / nearest, COMFORTABLE / (2 * order));
        double turns = SHORTEST_TURNS;
        while (turns < need) {
            turns *= 2;
        }
        return Math.min(turns, recordTurns);
    }

    /** The distance to a neighbour if it counts: not the same line, and far enough to be told. */
    private static double nearer(double nearest, double apart, double recordTurns) {
        return apart > SAME_ORDERS && apart >= APART / recordTurns
                ? Math.min(nearest, apart)
                : nearest;
    }

    private static int indexOf(double order, List<Double> fitted) {
        for (int i = 0; i < fitted.size(); i++) {
            if (Math.abs(fitted.get(i) - order) <= SAME_ORDERS) {
                return i;
            }
        }
        return -1;
    }

    private static double distance(double order, List<Double> others) {
        double least = Double.POSITIVE_INFINITY;
        for (double other : others) {
            least = Math.min(least, Math.abs(other - order));
        }
        return least;
    }

    static double distance(double order, double[] others) {
        double least = Double.POSITIVE_INFINITY;
        for (double other : others) {
            least = Math.min(least, Math.abs(other - order));
        }
        return least;
    }
}
