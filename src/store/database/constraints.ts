/** What a broken constraint means to people; the field is the record's. */
export type ConstraintWords = Readonly<{ field?: string; sentence: string }>

/** Every unique constraint and index of the schema; a test holds this list to it. */
export const CONSTRAINTS: Readonly<Record<string, ConstraintWords>> = {
  fabric_name_colour_key: {
    field: 'name',
    sentence: 'The shop has a fabric of this name and colour already: use that one.',
  },
  frame_name_key: taken('frame'),
  emulsion_name_key: taken('emulsion'),
  batch_emulsion_id_name_key: {
    field: 'name',
    sentence: 'There is a bucket of this name already: give the new one another, like its day.',
  },
  base_name_key: taken('film base'),
  medium_name_key: taken('medium'),
  ink_name_key: taken('ink'),
  paper_stock_name_key: taken('paper'),
  unit_name_key: taken('exposure unit'),
  lamp_in_unit: {
    sentence: 'Somebody else has just put a lamp into this unit: look at it again.',
  },
  shop_only_one_key: {
    sentence: 'This is a shop already: a second one lives in a folder of its own.',
  },
  screen_tag_in_use: {
    field: 'tag',
    sentence: 'Another screen carries this tag: give this one a number of its own.',
  },
  screen_event_sent_key_key: {
    field: 'key',
    sentence: 'This was told before: nothing is taken down twice.',
  },
  credential_code_hash_key: {
    sentence: 'Somebody has this code already: make another card.',
  },
  session_token_hash_key: {
    sentence: 'Somebody is signed in under this already: sign in again.',
  },
  diagnosis_row_of: {
    sentence: 'Somebody changed this row of the table at the same moment: look at it again.',
  },
  thing_name_in_use: {
    field: 'name',
    sentence: 'There is one of this name in the room already: change that one.',
  },
  day_event_sent_key_key: {
    field: 'key',
    sentence: 'This was told before: nothing is taken down twice.',
  },
  clock_sent_key_key: {
    field: 'key',
    sentence: 'This was told before: nothing is taken down twice.',
  },
  coating_on_screen: {
    field: 'screenId',
    sentence: 'This screen still carries a coating: reclaim it first.',
  },
  ticket_code_key: {
    field: 'code',
    sentence: 'Another ticket has this number: take the next one.',
  },
  layer_event_sent_key_key: {
    field: 'key',
    sentence: 'This was told before: nothing is taken down twice.',
  },
  edition_tally_sent_key_key: {
    field: 'key',
    sentence: 'This was told before: nothing is taken down twice.',
  },
  run_sent_key_key: {
    field: 'key',
    sentence: 'This exposure was begun before: open the bench again.',
  },
  run_exposure_id_key: {
    sentence: 'Somebody has this exposure at the bench already: look at it again.',
  },
  run_event_sent_key_key: {
    field: 'key',
    sentence: 'This was told before: nothing is taken down twice.',
  },
  layer_short_name_key: {
    field: 'shortName',
    sentence: 'Another layer has this short name: choose another sign for the ink.',
  },
  layer_ticket_id_place_key: {
    field: 'place',
    sentence: 'Another layer of this ticket is printed in this place: choose another place.',
  },
  artwork_film_place: {
    sentence: 'These films are being made already: wait for them.',
  },
  film_queue_sent_key_key: {
    field: 'key',
    sentence: 'This was told before: nothing is taken down twice.',
  },
  job_open_work: {
    sentence: 'This work is being done already: wait for it.',
  },
}

function taken(what: string): ConstraintWords {
  return {
    field: 'name',
    sentence: `The shop has ${what.match(/^[aeiou]/) === null ? 'a' : 'an'} ${what} of this name already: use that one, or choose another name.`,
  }
}
