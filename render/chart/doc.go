// Package chart draws the charts of the pages: what the weeks of all regions
// are good for, a region's year of soil, what its weeks are worth, and the
// crossing day against elevation or latitude.
//
// It takes report rows and week fields and gives, for each chart, the options
// of the chart library that the pages carry, a text that says what the chart
// shows, and its figures as a table. Numbers are in °C, metres and days: the
// script of the pages writes them in the reader's units. It never knows how a
// day was computed, files or pages.
package chart
