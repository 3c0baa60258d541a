import type { SectionOf } from '../question-set.js';

export const feet: SectionOf = {
  id: 'feet',
  title: 'Your feet and shoes',
  questions: [
    {
      kind: 'several_of',
      id: 'foot_signs',
      text: 'Which of these do you see on a foot?',
      options: [
        { id: 'open_sore', label: 'A sore, blister or broken skin' },
        { id: 'sore_not_healing', label: 'A sore that does not heal' },
        { id: 'black_or_cold', label: 'A toe or part of the foot that is black, or cold and pale' },
        { id: 'hot_swollen', label: 'A hot, red or swollen foot' },
        { id: 'shape_changed', label: 'The shape changed within weeks' },
        { id: 'infected_nail', label: 'An infected nail or skin' },
        { id: 'arch_dropped', label: 'The arch dropped and I cannot rise on my toes' },
      ],
    },
    { kind: 'yes_no', id: 'foot_numb_on_bike', text: 'Do your feet go numb or burn on the bike?' },
    { kind: 'yes_no', id: 'foot_numb_off_bike', text: 'Are your feet ever numb when you are off the bike?' },
    {
      kind: 'yes_no',
      id: 'feet_numb_like_socks',
      text: 'Are both feet numb as if you wore socks, or can you not feel a light touch on your toes?',
    },
    {
      kind: 'yes_no',
      id: 'toes_burn_between',
      text: 'Does it burn between two toes, or feel as if you stood on a pebble, more so in tight shoes?',
    },
    { kind: 'yes_no', id: 'toes_white_in_cold', text: 'Do your toes turn white or blue in the cold?' },
    {
      kind: 'several_of',
      id: 'cold_toe_signs',
      text: 'Which of these fit?',
      onlyWhen: { yes: 'toes_white_in_cold' },
      options: [
        { id: 'one_side', label: 'On one foot only' },
        { id: 'toes_only', label: 'Toes only, never fingers' },
        { id: 'began_after_30', label: 'It began after I was 30' },
        { id: 'sores', label: 'With sores or broken skin' },
      ],
    },
    {
      kind: 'yes_no',
      id: 'shoe_cracked_or_recalled',
      text: 'Is the sole of a cycling shoe cracked, or has its maker called it back?',
    },
  ],
};
