/**
 * Runs the pipeline: who calls whom, on which thread.
 *
 * <p>In: a visit. Out: its levels and findings. Read {@code VisitAnalysis} first.
 */
package tickover.session;
