/**
 * Pages, tables and pictures of results.
 *
 * <p>In: findings, levels, waterfalls. Out: HTML, CSV, PNG and SVG.
 */
package tickover.report;
