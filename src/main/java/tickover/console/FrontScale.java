package tickover.console;

/**
 * From millimetres at the engine to pixels on the screen, y turned over.
 *
 * @param pixelsPerMm scale
 * @param leftMm what lies at the left edge, mm
 * @param topMm what lies at the upper edge, mm
 */
record FrontScale(double pixelsPerMm, double leftMm, double topMm) {
    double x(double xMm) {
        return (xMm - leftMm) * pixelsPerMm;
    }

    double y(double yMm) {
        return (topMm - yMm) * pixelsPerMm;
    }

    double xMm(double x) {
        return leftMm + x / pixelsPerMm;
    }

    double yMm(double y) {
        return topMm - y / pixelsPerMm;
    }

    /** Fits a box into an area, centred, with a margin on each side. */
    static FrontScale fit(Box box, double width, double height, double marginPixels) {
        double roomX = Math.max(1, width - 2 * marginPixels);
        double roomY = Math.max(1, height - 2 * marginPixels);
        double scale = Math.min(roomX / box.widthMm(), roomY / box.heightMm());
        double left = (box.leftMm() + box.rightMm()) / 2 - width / 2 / scale;
        double top = (box.topMm() + box.bottomMm()) / 2 + height / 2 / scale;
        return new FrontScale(scale, left, top);
    }

    /** What has to be seen, mm. */
    record Box(double leftMm, double rightMm, double bottomMm, double topMm) {
        static final Box EMPTY =
                new Box(
                        Double.POSITIVE_INFINITY,
                        Double.NEGATIVE_INFINITY,
                        Double.POSITIVE_INFINITY,
                        Double.NEGATIVE_INFINITY);

        Box with(double xMm, double yMm, double radiusMm) {
            return new Box(
                    Math.min(leftMm, xMm - radiusMm),
                    Math.max(rightMm, xMm + radiusMm),
                    Math.min(bottomMm, yMm - radiusMm),
                    Math.max(topMm, yMm + radiusMm));
        }

        /** At least so large, so that one small pulley does not fill the screen. */
        Box atLeast(double sizeMm) {
            if (!(widthMm() > 0)) {
                return new Box(-sizeMm / 2, sizeMm / 2, -sizeMm / 2, sizeMm / 2);
            }
            double growX = Math.max(0, sizeMm - widthMm()) / 2;
            double growY = Math.max(0, sizeMm - heightMm()) / 2;
            return new Box(leftMm - growX, rightMm + growX, bottomMm - growY, topMm + growY);
        }

        double widthMm() {
            return rightMm - leftMm;
        }

        double heightMm() {
            return topMm - bottomMm;
        }
    }
}
