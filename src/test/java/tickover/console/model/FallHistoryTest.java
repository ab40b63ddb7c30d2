package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tickover.session.LiveFeed;
import tickover.session.LivePipeline;
import tickover.sim.SimulatedVan;

/** Rows of the waterfall as colours. */
class FallHistoryTest {
    private static final int[] TABLE = new int[256];

    static {
        for (int i = 0; i < TABLE.length; i++) {
            TABLE[i] = i;
        }
    }

    private final LivePipeline pipeline = new LivePipeline();
    private final FallHistory fall = new FallHistory(60, 1);

    private void play(LiveFeed feed, double lengthS, double rms) {
        for (double t = 0; t < lengthS - 0.05; t += 0.1) {
            feed.play(0.1, rms, true);
            pipeline.latest().ifPresent(f -> fall.take(f.setup(), f.motion()));
        }
    }

    @Test
    void aLineHasTheColourOfItsLevelAtItsPlace() {
        play(new LiveFeed(pipeline, new SimulatedVan(false).vehicle(), 8), 4, 1);
        // 1 m/s² is 0 dB; the scale ends at the next ten.
        assertTrue(fall.topDb() >= 0 && fall.topDb() <= 10, "" + fall.topDb());
        for (double reach : new double[] {16, 102}) {
            int[] row = new int[640];
            fall.colour(fall.rows() - 1, reach, TABLE, row, 0, 640);
            int place = (int) (8 / reach * 640);
            int loudest = 0;
            for (int x = 0; x < row.length; x++) {
                loudest = row[x] > row[loudest] ? x : loudest;
            }
            // A bin is some places wide or a place some bins.
            assertEquals(place, loudest, 3, "reach " + reach);
            double db = fall.topDb() - 60 * (1 - row[loudest] / 255.0);
            // A step of the table, and the line's place between bins.
            assertEquals(0, db, 0.7, "reach " + reach);
            assertEquals(0, row[(int) (12.3 / reach * 640)], "reach " + reach);
        }
        assertEquals(1, fall.levelMps2(8), 0.05);
    }

    @Test
    void theScaleFollowsUpAtOnceAndDownSlowly() {
        LiveFeed feed = new LiveFeed(pipeline, new SimulatedVan(false).vehicle(), 8);
        play(feed, 3, 0.1);
        double before = fall.topDb();
        int scale = fall.scale();
        play(feed, 2, 10);
        assertEquals(before + 40, fall.topDb(), 10);
        assertTrue(fall.scale() > scale);
        double loud = fall.topDb();
        play(feed, 3, 0.1);
        assertEquals(loud, fall.topDb());
    }

    @Test
    void rowsThatAScreenMissedAreNotDrawnTwice() {
        LiveFeed feed = new LiveFeed(pipeline, new SimulatedVan(false).vehicle(), 8);
        play(feed, 2, 1);
        long rows = fall.rows();
        feed.play(5, 1, true);
        pipeline.latest().ifPresent(f -> fall.take(f.setup(), f.motion()));
        assertTrue(fall.rows() > rows + 100);
        assertTrue(fall.endS(fall.rows() - 1) > fall.endS(fall.rows() - 2));
    }
}
